import type { AnimalId, PersonId, RecordId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { deskAndMedical, type Raised } from '../flag.js';
import type { NumberHolderRow, RunHolderRow } from '../read-rows.js';

/**
 * One test under several animals: a stop on each of them. Nobody can tell from the record whose blood was in the kit. One
 * that was taken back under one of them keeps its flag: only the medical team's answer closes it.
 */
export function flagsOfRun(holders: readonly RunHolderRow[]): Raised[] {
  if (holders.length < 2) return [];
  const raisedAt =
    holders
      .map(({ at }) => at)
      .sort()
      .at(-1) ?? '';
  const code = holders.every(({ stands }) => stands === 1) ? 'flag.run-shared' : 'flag.run-shared.back';
  return holders.map(
    ({ run, animal, called, record, by }): Raised => ({
      key: `run-shared:${run}:${animal}`,
      code: 'run-shared',
      severity: 'stop',
      animal: animal as AnimalId,
      about: record as RecordId,
      raisedAt,
      for: deskAndMedical,
      why: said(code, {
        animal: called,
        others: { list: holders.flatMap((other) => (other.animal === animal ? [] : [other.called])) },
        people: { list: [...new Set(holders.map((one) => one.by))].map((person) => ({ person: person as PersonId })) },
      }),
      by: by as PersonId,
      closedBy: 'medical',
    }),
  );
}

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
