import type { Animal } from '../../core/animal/animal.js';
import { isLongBefore } from '../../core/animal/long-before.js';
import { derived } from '../../core/derived.js';
import { readWeight } from '../../core/quantity/read-weight.js';
import { weightUnits } from '../../core/quantity/units.js';
import type { BodyOf } from '../kinds/index.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { desk, deskAndMedical, type Raise } from './flag.js';

/** Records that do not fit what they stand among: kept as they are, and looked at by a person. */
export function entryFlags(animal: Animal, standing: readonly LogRecord[], raise: Raise): void {
  for (const record of readingsElsewhere(standing)) raise('reading-elsewhere', 'stop', record, deskAndMedical);
  for (const record of standing) {
    if (isLongBefore(dayOf(record), animal.born)) {
      raise('long-before', 'attention', record, deskAndMedical, { on: { date: dayOf(record) } });
    }
    if (record.kind === 'animal-weighed' && !reads(record.body)) {
      const { entered, grams } = record.body;
      raise('weight-entered-differs', 'attention', record, deskAndMedical, { entered, weight: { grams } });
    }
  }
  const said = standing.findLast(({ kind }) => kind === 'animal-described' || kind === 'animal-taken-in');
  if (said === undefined) return;
  if (animal.arrivedOn < animal.born.earliest) {
    const values = { born: { date: animal.born.earliest }, arrived: { date: animal.arrivedOn } };
    raise('born-after', 'stop', said, deskAndMedical, values);
  }
  const nameless = animal.name === '' && animal.label === '';
  if (nameless || isInvisible(animal.name) || isInvisible(animal.label)) raise('name-unseen', 'attention', said, desk);
}

/** Readings of tests that were neither drawn nor started on the animal. */
export function readingsElsewhere(standing: readonly LogRecord[]): readonly LogRecord<'test-read'>[] {
  const begun = new Set(
    standing.flatMap((one) => (one.kind === 'sample-drawn' || one.kind === 'test-started' ? [one.body.run] : [])),
  );
  return standing.filter((one): one is LogRecord<'test-read'> => one.kind === 'test-read' && !begun.has(one.body.run));
}

/** Typed, and nothing of it can be seen: spaces and characters without a shape. */
const isInvisible = (text: string): boolean =>
  text !== '' && /^[\p{White_Space}\p{Default_Ignorable_Code_Point}\p{C}]*$/u.test(text);

/** Whether what was typed can be read as these grams, in whatever unit the field had; what is no weight says nothing. */
const reads = derived(({ entered, grams }: BodyOf<'animal-weighed'>): boolean => {
  const readings = weightUnits.flatMap((unit) => {
    const read = readWeight(entered, unit);
    if (read.is === 'no') return [];
    return read.is === 'ask' ? [...read.readings] : [read.weight];
  });
  return readings.length === 0 || readings.some((one) => Math.abs(one.grams - grams) <= 1);
});
