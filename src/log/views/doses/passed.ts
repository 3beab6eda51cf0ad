import type { GateCode } from '../../../core/dosing/gate.js';
import { type Said, said } from '../../../core/said.js';
import type { GatePassed } from '../../kinds/treatment.js';

/** The name of a stop as a record has it; one of another version may have no name here, and is shown as it stands. */
export const gateName = (code: string): Said => said(`gate.${code as GateCode}`);

/** How a stop was passed, as a sentence. */
export function passedSaid({ how, reason = '', agreed }: Omit<GatePassed, 'gate' | 'by'>): Said | string {
  switch (how) {
    case 'on-record':
      return reason;
    case 'second-person': {
      const volume =
        agreed?.volume_ul == null ? '' : said('gate-passed.volume', { volume: { microlitres: agreed.volume_ul } });
      return said('gate-passed.second-person', { weight: { grams: agreed?.grams ?? 0 }, volume });
    }
    case 'no-word':
    case 'no-word-on-paper':
      return said(`gate-passed.${how}`);
    default:
      return said('gate-passed.word', { reason, how: said(`round.gate.reason.${how}`) });
  }
}
