import type { Animal } from '../../core/animal/animal.js';
import { isLongBefore } from '../../core/animal/long-before.js';
import type { CalendarDate } from '../../core/calendar.js';
import { derived, growing, partBy } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { readWeight } from '../../core/quantity/read-weight.js';
import { weightUnits } from '../../core/quantity/units.js';
import { desk, deskAndMedical, type Raised, raisedBy } from '../flag.js';
import type { BodyOf } from '../kinds/index.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { ofKinds } from '../views/parts.js';

/** Records that do not fit what they stand among: kept as they are, and looked at by a person. */
export const entryFlags = (
  { id, name, label, born, arrivedOn }: Animal,
  standing: readonly LogRecord[],
): readonly Raised[] =>
  flagsOf(
    described(standing),
    testing(standing),
    beforeBirth(standing, born),
    misread(standing),
    born,
    id,
    name,
    label,
    arrivedOn,
  );

const flagsOf = derived(
  (
    described: readonly LogRecord[],
    tests: readonly LogRecord[],
    tooEarly: readonly LogRecord[],
    misread: readonly LogRecord<'animal-weighed'>[],
    born: Animal['born'],
    id: AnimalId,
    name: string,
    label: string,
    arrivedOn: CalendarDate,
  ): readonly Raised[] =>
    raisedBy({ id, name }, (raise) => {
      for (const record of readingsElsewhere(tests)) raise('reading-elsewhere', 'stop', record, deskAndMedical);
      for (const record of tooEarly) {
        raise('long-before', 'attention', record, deskAndMedical, { on: { date: dayOf(record) } });
      }
      for (const record of misread) {
        const { entered, grams } = record.body;
        raise('weight-entered-differs', 'attention', record, deskAndMedical, { entered, weight: { grams } });
      }
      const said = described.at(-1);
      if (said === undefined) return;
      if (arrivedOn < born.earliest) {
        const values = { born: { date: born.earliest }, arrived: { date: arrivedOn } };
        raise('born-after', 'stop', said, deskAndMedical, values);
      }
      const nameless = name === '' && label === '';
      if (nameless || isInvisible(name) || isInvisible(label)) raise('name-unseen', 'attention', said, desk);
    }),
);

/** Readings of tests that were neither drawn nor started on the animal. */
export function readingsElsewhere(standing: readonly LogRecord[]): readonly LogRecord<'test-read'>[] {
  const tests = testing(standing);
  const begun = new Set(tests.flatMap((one) => (one.kind === 'test-read' ? [] : [one.body.run])));
  return tests.filter((one): one is LogRecord<'test-read'> => one.kind === 'test-read' && !begun.has(one.body.run));
}

const testing = ofKinds('sample-drawn', 'test-started', 'test-read');
const described = ofKinds('animal-described', 'animal-taken-in');

/** Records of days on which there was no such animal. */
const beforeBirth = growing<LogRecord, [Animal['born']], readonly LogRecord[]>(
  (standing, born) => standing.filter((record) => isLongBefore(dayOf(record), born)),
  (before, { more }, _all, born) => (more.some((record) => isLongBefore(dayOf(record), born)) ? undefined : before),
);

const misread = partBy(
  (record: LogRecord): record is LogRecord<'animal-weighed'> => record.kind === 'animal-weighed' && !reads(record.body),
);

/** Typed, and nothing of it can be seen: spaces and characters without a shape. */
const isInvisible = (text: string): boolean =>
  // Nearly every name has a plain letter, and then the long table of characters is not asked.
  text !== '' && !/[!-~]/.test(text) && /^[\p{White_Space}\p{Default_Ignorable_Code_Point}\p{C}]*$/u.test(text);

/** Whether what was typed can be read as these grams, in whatever unit the field had; what is no weight says nothing. */
const reads = derived(({ entered, grams }: BodyOf<'animal-weighed'>): boolean => {
  const readings = weightUnits.flatMap((unit) => {
    const read = readWeight(entered, unit);
    if (read.is === 'no') return [];
    return read.is === 'ask' ? [...read.readings] : [read.weight];
  });
  return readings.length === 0 || readings.some((one) => Math.abs(one.grams - grams) <= 1);
});
