import type { AnimalId } from '../core/ids.js';
import { isAnimalRecord, subjectOf } from '../log/record.js';
import type { HeldAsked, HeldPage, KeptEnvelope } from '../log/store.js';

/**
 * What a device holds, worked out over a whole log in memory. Says what `LogStore.held` means; a store over a database
 * finds the same by its indexes.
 */
export function heldIn(
  log: readonly KeptEnvelope[],
  hasLeft: (animal: AnimalId) => boolean,
  { after, since, limit }: HeldAsked,
): HeldPage {
  const late = new Set(log.filter(({ seq }) => seq > since).map(({ subject }) => subject));
  const goes = (record: KeptEnvelope): boolean =>
    !isAnimalRecord(record) || !hasLeft(animalIn(record)) || late.has(record.subject);
  const records = log.filter((record) => record.seq > after && goes(record)).slice(0, limit);
  const next = records.length === limit ? records.at(-1)?.seq : log.at(-1)?.seq;
  return { records, next: Math.max(after, next ?? 0), left: leftOf(records, hasLeft) };
}

export const animalIn = (record: { readonly subject: string }): AnimalId => subjectOf(record).id as AnimalId;

/** Which animals of some records are not here any more, each once. */
export function leftOf(records: readonly KeptEnvelope[], hasLeft: (animal: AnimalId) => boolean): AnimalId[] {
  const animals = new Set(records.filter(isAnimalRecord).map(animalIn));
  return [...animals].filter(hasLeft);
}
