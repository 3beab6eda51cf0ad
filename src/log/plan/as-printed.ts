import type { AnimalId, RoundId } from '../../core/ids.js';
import type { LogRecord } from '../record.js';
import { foldAnimal } from '../views/animal.js';
import { byHappening } from '../views/effective.js';
import { roundOf } from '../views/round/round.js';
import type { World } from '../views/world.js';

/**
 * One animal as it stood when a round was laid down: without what has been recorded of it on that round, and without any
 * weighing that was recorded, or came in, after it. What was weighed since must not change the amount that stands on the
 * paper; whether the paper was printed before or after is not known (`asPrintedLast`).
 */
export function asPrinted(world: World, animal: AnimalId, round: RoundId): World {
  const plan = world.bySubject.get(`round:${round}`)?.find((record) => record.kind === 'round-planned');
  const all = ofAnimal(world, animal);
  return withRecords(
    world,
    animal,
    all.filter((record) => roundOf(record) !== round && !(isAboutWeight(record, all) && isSince(record, plan))),
  );
}

/**
 * The same animal if its sheet was printed last of all: with every weighing but those that were keyed in from the sheet
 * itself. Where this comes to another amount than `asPrinted`, nobody knows which one stands on the paper.
 */
export function asPrintedLast(world: World, animal: AnimalId, round: RoundId): World {
  const all = ofAnimal(world, animal);
  const own = all.filter((record) => roundOf(record) === round);
  return withRecords(
    world,
    animal,
    all.filter((record) => roundOf(record) !== round || (isAboutWeight(record, all) && !isFromPaper(record, own))),
  );
}

const ofAnimal = (world: World, animal: AnimalId): readonly LogRecord[] =>
  world.bySubject.get(`animal:${animal}`) ?? [];

function withRecords(world: World, animal: AnimalId, records: readonly LogRecord[]): World {
  const then = foldAnimal(animal, records, world.ground);
  if (then === null) return world;
  return {
    ...world,
    animals: new Map(world.animals).set(animal, then),
    bySubject: new Map(world.bySubject).set(`animal:${animal}`, records),
  };
}

/** A weighing, or what was said of one afterwards. */
function isAboutWeight(record: LogRecord, all: readonly LogRecord[]): boolean {
  if (record.kind === 'animal-weighed') return true;
  const corrected = all.find((other) => other.id === record.corrects);
  return corrected !== undefined && corrected.id !== record.id && corrected.kind === 'animal-weighed';
}

/** Written down after the plan, or written before and sent after it. */
const isSince = (record: LogRecord, plan: LogRecord | undefined): boolean =>
  plan !== undefined &&
  (record.recordedAt > plan.recordedAt ||
    (record.seq !== undefined && plan.seq !== undefined && record.seq > plan.seq));

/** By what the animal was last made sure of before it: by a sheet, or in somebody's hands. */
function isFromPaper(weighing: LogRecord, own: readonly LogRecord[]): boolean {
  const sure = own
    .filter((record) => record.kind === 'animal-identified' && record.happenedAt <= weighing.happenedAt)
    .sort(byHappening)
    .at(-1);
  return sure?.kind === 'animal-identified' && sure.body.by === 'paper';
}
