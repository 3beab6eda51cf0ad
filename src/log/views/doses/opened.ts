import type { RecentDose } from '../../../core/dosing/dose-question.js';
import type { OpenedGate } from '../../../core/dosing/gate.js';
import { type GateCode, gateCodes } from '../../../core/dosing/gate.js';
import type { AnimalId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';
import { effective } from '../effective.js';
import type { World } from '../world.js';

const isCode = (text: string): text is GateCode => gateCodes.some((code) => code === text);

/** Every word that has been written down for an animal and not withdrawn, run out or not. */
export const openedFor = (world: World, animal: AnimalId): OpenedGate[] =>
  openedIn(effective(world.bySubject.get(`animal:${animal}`) ?? []));

/** The same of the records of one animal as they stand. */
export function openedIn(standing: readonly LogRecord[]): OpenedGate[] {
  return standing.flatMap((record) => {
    if (record.kind !== 'gate-opened') return [];
    const { product, gates, vet, reason, until } = record.body;
    return [{ record: record.id, product, gates: gates.filter(isCode), by: vet, reason, until }];
  });
}

/** What an animal was given and kept, oldest first, with the volumes; also what was reported from elsewhere. */
export function dosesGiven(world: World, animal: AnimalId): RecentDose[] {
  return effective(world.bySubject.get(`animal:${animal}`) ?? []).flatMap((record) =>
    record.kind === 'treatment-given' && record.body.outcome !== 'not-taken'
      ? [
          {
            product: record.body.product,
            at: record.happenedAt,
            volume_ul: record.body.volume_ul,
            strength_mg_per_ml: record.body.strength_mg_per_ml,
          },
        ]
      : [],
  );
}
