import type { AnimalId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import type { NumberHolderRow } from '../rows/read-rows.js';
import { deskAndMedical, type Raised } from './flag.js';

/** One number for several animals in care: a stop on each of them, until one has another number or has left. */
export function flagsOfNumber(holders: readonly NumberHolderRow[]): Raised[] {
  if (holders.length < 2) return [];
  const raisedAt =
    holders
      .map(({ since }) => since)
      .sort()
      .at(-1) ?? '';
  return holders.map(
    ({ animal, label, called }): Raised => ({
      key: `number-shared:${animal}`,
      code: 'number-shared',
      severity: 'stop',
      animal: animal as AnimalId,
      about: null,
      raisedAt,
      for: deskAndMedical,
      why: said('flag.number-shared', {
        animal: called,
        number: label,
        others: { list: holders.flatMap((other) => (other.animal === animal ? [] : [other.called])) },
      }),
      by: null,
      // Words give no animal another number.
      followUp: null,
    }),
  );
}
