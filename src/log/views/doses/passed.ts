import { type Said, said } from '../../../core/said.js';
import type { GatePassed } from '../../kinds/treatment.js';

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
