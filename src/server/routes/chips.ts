import type { z } from 'zod';
import type { ChipsAsked, ChipsPage } from '../../api/wire.js';
import { CalendarDate } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import type { ChipEntry } from '../../log/chip-index.js';
import type { ReadRows } from '../../log/read-rows.js';
import { isAnimalRecord, subjectOf } from '../../log/record.js';
import type { Context } from '../context.js';
import { type Refusal, refuse } from '../refusal.js';
import { isAnotherHistory } from './records.js';

/** So many animals are asked for one by one; of more the whole table is read. */
const fewAnimals = 200;

/**
 * Every chip number ever recorded; or, after a place, all numbers of those animals that a record was written about since.
 * What stands in the index of an animal comes from its own records, so nothing else can have changed.
 */
export async function chipsPage(
  { store }: Context,
  { after, hash }: z.output<typeof ChipsAsked>,
): Promise<ChipsPage | Refusal> {
  if (await isAnotherHistory(store, { after, hash })) return refuse('another-history');
  // The place is taken first: what comes in meanwhile is told twice, and never left out.
  const head = await store.head();
  const since = after === 0 ? [] : (await store.read({ after })).filter(isAnimalRecord);
  const touched = new Set(since.map((record) => subjectOf(record).id as AnimalId));
  const some = after > 0 && touched.size <= fewAnimals;
  const rows = some
    ? (await Promise.all([...touched].map((animal) => store.rows('chip_numbers', { animal })))).flat()
    : await store.rows('chip_numbers');
  const chips = entriesOf(after === 0 ? rows : rows.filter(({ animal }) => touched.has(animal as AnimalId)));
  const told = new Set(chips.map(({ animal }) => animal));
  // A number goes from a record only by a correction or a withdrawal.
  const corrected = since.filter((record) => record.corrects !== undefined);
  const without = [...new Set(corrected.map((record) => subjectOf(record).id as AnimalId))].filter(
    (animal) => !told.has(animal),
  );
  return { chips, without, place: head.seq, hash: head.hash };
}

/** In the order of their animals: ids that were made one after the other have much in common, which packs well. */
function entriesOf(rows: readonly ReadRows['chip_numbers'][]): ChipEntry[] {
  const entries = new Map<string, ChipEntry>();
  for (const { animal, label, left_on, code, standing } of rows) {
    const left = left_on === null ? null : CalendarDate.parse(left_on);
    const before = entries.get(animal) ?? { animal: animal as AnimalId, label, left, numbers: [] };
    entries.set(animal, { ...before, numbers: [...before.numbers, { code, is: standing }] });
  }
  return [...entries.values()];
}
