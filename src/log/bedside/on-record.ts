import type { RunReading, TestRun } from '../../core/animal/animal.js';
import type { Kind } from '../kinds/index.js';
import type { LogRecord } from '../record.js';
import { warningsOf } from '../views/chips/chip-warnings.js';
import { inDeviceOrder } from '../views/device-order.js';
import { roundOf } from '../views/round/round.js';
import type { World } from '../views/world.js';

/** Kinds that a team makes on an animal during a round. */
const ofRound = [
  'animal-identified',
  'animal-weighed',
  'treatment-given',
  'treatment-not-given',
  'sample-drawn',
  'test-started',
  'test-read',
  'test-abandoned',
  'chip-scanned',
  'chip-implanted',
  'chip-discarded',
  'observation-noted',
] as const satisfies readonly Kind[];
export type RoundRecord = LogRecord<(typeof ofRound)[number]>;

const isOfRound = (record: LogRecord): record is RoundRecord => ofRound.some((kind) => kind === record.kind);

/** What has been recorded on an animal on this round and still counts, the newest first. */
export function onRecord(world: World, animal: string, round: string): RoundRecord[] {
  return inDeviceOrder(world.bySubject.get(`animal:${animal}`) ?? [])
    .filter((record): record is RoundRecord => isOfRound(record) && roundOf(record) === round)
    .reverse();
}

/** What this reading came to, as it was, whichever reading of the run stands. */
export const readingOf = (record: LogRecord<'test-read'>, world: World): RunReading | null =>
  runOf(record, world)?.readings?.find((one) => one.record === record.id) ?? null;

/** The test that a reading is of. */
export function runOf(record: LogRecord<'test-read'>, world: World): TestRun | null {
  const animal = [...world.animals.values()].find(({ id }) => record.subject === `animal:${id}`);
  return animal?.runs.find((one) => one.run === record.body.run) ?? null;
}

/** A chip read on the animal where its own has to show, and it was another number. */
export function isOfAnother(record: LogRecord<'chip-scanned'>, world: World): boolean {
  const { target, occasion, found } = record.body;
  if (target !== 'animal' || found === null || occasion === 'before' || occasion === 'intake') return false;
  const animal = [...world.animals.values()].find((one) => record.subject === `animal:${one.id}`);
  return animal?.chip != null && animal.chip.code !== found.code;
}

function isDoubted({ id, subject }: LogRecord<'animal-weighed'>, world: World): boolean {
  const animal = [...world.animals.values()].find((one) => subject === `animal:${one.id}`);
  return animal?.weighings.some(({ record, doubtful }) => record === id && doubtful) ?? false;
}

/** Whether a record is of something that did not go as it should: it is shown, but not as done. */
export function wantsAttention(record: RoundRecord, world: World): boolean {
  switch (record.kind) {
    case 'animal-identified':
      return record.body.by === 'override';
    case 'animal-weighed':
      return isDoubted(record, world);
    case 'treatment-given':
      return record.body.outcome !== 'taken' || record.body.passed.length > 0;
    case 'sample-drawn':
      return !record.body.usable;
    case 'chip-scanned':
      return (
        (record.body.found === null && record.body.occasion === 'after') ||
        record.body.ofAnother ||
        isOfAnother(record, world) ||
        warningsOf(record.body.found?.raw ?? '').length > 0
      );
    case 'test-read':
      // Beside a reading that found more, one that found nothing is not in order by itself.
      return readingOf(record, world)?.result !== 'negative' || runOf(record, world)?.result !== 'negative';
    case 'observation-noted':
      return record.body.answer === 'glow' || record.body.answer === 'unsure';
    case 'treatment-not-given':
    case 'test-abandoned':
    case 'chip-discarded':
      return true;
    default:
      return false;
  }
}
