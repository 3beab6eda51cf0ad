import type { Animal, NotGiven, TestRun } from '../../../core/animal/animal.js';
import { type LampAnswer, lampCode } from '../../../core/animal/lamp.js';
import { orderNamed } from '../../../core/animal/vet-order.js';
import { derivedInParts } from '../../../core/derived.js';
import type { AnimalId, RecordId, RoundId, ScheduleId } from '../../../core/ids.js';
import type { InParts } from '../../../core/in-parts.js';
import type { Action } from '../../../core/protocol/due.js';
import type { LogRecord } from '../../record.js';
import { withSharedDraw } from '../blood-tests/shared-draw.js';
import { chipCourse, openDifference } from '../chips/chip-course.js';
import { inDeviceOrder } from '../device-order.js';
import { runningAsNeeded } from '../due/as-needed.js';
import { scheduleNamed, visitOrderOf } from '../due/schedules.js';
import type { RoundFacts } from '../round-facts.js';
import type { Section, Shelter } from '../shelter.js';
import { isUnwell } from '../sick.js';
import { byPlace, dueIn, type World } from '../world.js';
import { addedTo, withoutEnded } from './round-added.js';

/** One thing to be done to one animal on a round, and how far it has come. */
export interface RoundLine {
  readonly animal: AnimalId;
  readonly schedule: ScheduleId;
  readonly name: string;
  readonly action: Action;
  /**
   * `open`: nothing recorded. `running`: blood drawn or test started, not read. `part`: chip in, not yet scanned after.
   * `done` and `not-done` are final; `not-done` has a reason.
   */
  readonly state: 'open' | 'running' | 'part' | 'done' | 'not-done';
  readonly reason: '' | NotGiven;
  readonly record: RecordId | null;
  readonly run: TestRun | null;
  /** What the ringworm lamp showed; only on its line. */
  readonly answer?: LampAnswer;
  /** A chip that cannot be trusted: another number was read than belongs there, or none. */
  readonly chip?: 'two-numbers' | 'unread';
  /** Done, but not as it should be: reactive, invalid, not taken, other chip ... */
  readonly abnormal: boolean;
  /** Not in the plan: it became due after the round had been laid. */
  readonly added?: true;
  /** Of an order as needed: in no plan, counted nowhere, and to be given again later on the same round. */
  readonly asNeeded?: true;
}

export interface AnimalStop {
  readonly animal: Animal;
  readonly identified: LogRecord<'animal-identified'> | null;
  /** Its records on this round that stand, in the order in which the devices made them. */
  readonly own: readonly LogRecord[];
  readonly lines: readonly RoundLine[];
  /** Found ill on this round: a weight that raised an alarm, or a sign of illness. */
  readonly unwell: boolean;
}

export interface SectionStop {
  readonly section: Section;
  readonly state: 'ahead' | 'inside' | 'left';
  readonly animals: readonly AnimalStop[];
  /** Those in the section to which nothing is due, and that have an order to be given as needed. */
  readonly asNeeded: readonly AnimalStop[];
}

export interface RoundView {
  readonly facts: RoundFacts;
  readonly state: 'planned' | 'running' | 'handed-back' | 'accepted';
  readonly stops: readonly SectionStop[];
  /** Tests whose clock runs, by the end of their window. */
  readonly running: readonly RoundLine[];
  readonly counts: {
    readonly done: number;
    readonly notDone: number;
    readonly open: number;
    readonly abnormal: number;
  };
}

/** The round as planned with what has really happened; null when there is no such round. Pure. */
export const roundView = derivedInParts(function* (world: World, id: RoundId): InParts<RoundView | null> {
  const facts = world.shelter.rounds.get(id);
  if (facts === undefined) return null;
  const stopOf = new Map<string, AnimalStop[]>();
  const order = byPlace(world.shelter);
  const { bySubject, ground } = world;
  const known = { bySubject, ground, dueIn: (animal: Animal) => dueIn(world, animal, facts.plan.on) };
  const lineOfAnimal = new Map(facts.plan.lines.map((line) => [line.animal, line.schedules]));
  const met: {
    readonly animal: Animal;
    readonly planned: readonly ScheduleId[];
    readonly added: readonly ScheduleId[];
  }[] = [];
  for (const animal of world.animals.values()) {
    if (!lineOfAnimal.has(animal.id) && !facts.plan.sections.some((own) => own === animal.section)) continue;
    yield;
    const planned = lineOfAnimal.get(animal.id) ?? [];
    const added = addedTo(known, facts, animal, planned);
    if (lineOfAnimal.has(animal.id) || added.length > 0) met.push({ animal, planned, added });
  }
  met.sort((a, b) => order(a.animal, b.animal));
  const stopped = new Set(met.map(({ animal }) => animal.id));
  for (const { animal, planned, added } of met) {
    yield;
    // Where the animal is now decides; one that has moved out of the chosen sections stays with the last of them.
    const home = facts.plan.sections.find((section) => section === animal.section) ?? facts.plan.sections.at(-1) ?? '';
    const stops = stopOf.get(home) ?? [];
    const own = inDeviceOrder(world.bySubject.get(`animal:${animal.id}`) ?? []);
    const stop = animalStop(world, animal, id, [...planned, ...added], own);
    const lines = stop.lines.map((line) => {
      const still = withoutEnded(known, facts, animal, line);
      return added.includes(line.schedule) ? { ...still, added: true as const } : still;
    });
    stops.push({ ...stop, lines });
    stopOf.set(home, stops);
  }
  const onlyAsNeeded = [...world.animals.values()]
    .filter(({ id: one }) => !stopped.has(one))
    .filter((animal) => runningAsNeeded(world, animal, facts.plan.on).length > 0)
    .sort(order)
    .map((animal) => animalStop(world, animal, id, [], inDeviceOrder(bySubject.get(`animal:${animal.id}`) ?? [])));
  const stops = world.shelter.sections
    .filter((section) => facts.plan.sections.includes(section.id))
    .map((section): SectionStop => {
      const visits = facts.visits.filter((visit) => visit.section === section.id);
      const inside = visits.some((visit) => visit.leftAt === null);
      const state = inside ? 'inside' : visits.length > 0 ? 'left' : 'ahead';
      const asNeeded = onlyAsNeeded.filter(({ animal }) => animal.section === section.id);
      return { section, state, animals: stopOf.get(section.id) ?? [], asNeeded };
    });
  const animals = stops.flatMap((stop) => stop.animals);
  const lines = animals.flatMap((animal) => animal.lines);
  return {
    facts,
    state: stateOf(facts),
    stops,
    running: lines.filter((line) => line.state === 'running' && line.run?.startedAt != null),
    counts: countsOf(animals),
  };
});

export const stateOf = (facts: RoundFacts): RoundView['state'] =>
  facts.accepted ? 'accepted' : facts.handedBack ? 'handed-back' : facts.begunAt ? 'running' : 'planned';

/**
 * Every line once: what has to be looked at is counted as that, however far it has come. An animal that was found ill
 * counts as abnormal besides, where no line of it says so already.
 */
export function countsOf(stops: readonly Pick<AnimalStop, 'lines' | 'unwell'>[]): RoundView['counts'] {
  const lines = stops.flatMap((stop) => stop.lines);
  const unwell = stops.filter((stop) => stop.unwell && !stop.lines.some((line) => line.abnormal));
  const count = (...states: RoundLine['state'][]): number =>
    lines.filter((line) => states.includes(line.state) && !line.abnormal).length;
  return {
    done: count('done'),
    notDone: count('not-done'),
    open: count('open', 'running', 'part'),
    abnormal: lines.filter((line) => line.abnormal).length + unwell.length,
  };
}

/** Whatever has the documents at hand: a world, or the ground of one animal. */
interface Documents {
  readonly shelter: Pick<Shelter, 'protocol' | 'protocols' | 'formulary'>;
}

/** One animal on a round; `records` are all of its records that stand, in the order in which the devices made them. */
export function animalStop(
  world: Documents,
  animal: Animal,
  round: RoundId,
  planned: readonly ScheduleId[],
  records: readonly LogRecord[],
): AnimalStop {
  const own = records.filter((one) => roundOf(one) === round);
  // What a sheet of paper says proves nothing to whoever holds the animal now.
  const identified =
    own.filter((record) => record.kind === 'animal-identified').findLast(({ body }) => body.by !== 'paper') ?? null;
  const schedules = [...planned];
  // Something done on the round that was not planned is shown with the rest.
  for (const record of own) {
    const schedule = scheduleOf(record);
    if (schedule !== null && !schedules.includes(schedule)) schedules.push(schedule);
  }
  const lines = schedules
    .map((schedule) => lineOf(world, animal, round, schedule, own))
    .sort((a, b) => visitOrderOf(world.shelter, a.schedule) - visitOrderOf(world.shelter, b.schedule));
  const unwell = isUnwell(animal, records, own, world.shelter);
  return { animal, identified, own, lines: withSharedDraw(world, runsOf(animal, round), own, lines), unwell };
}

const runsOf = (animal: Animal, round: RoundId): TestRun[] => animal.runs.filter((run) => run.round === round);

/** The round a record was made on, if its kind can say. */
export function roundOf(record: LogRecord): string | null {
  return 'round' in record.body ? (record.body.round ?? null) : null;
}

function scheduleOf(record: LogRecord): ScheduleId | null {
  return 'schedule' in record.body ? (record.body.schedule ?? null) : null;
}

function lineOf(
  world: Documents,
  animal: Animal,
  round: RoundId,
  schedule: ScheduleId,
  own: readonly LogRecord[],
): RoundLine {
  const found = scheduleNamed(world.shelter, schedule);
  const order = orderNamed(animal, schedule)?.terms;
  const base = {
    animal: animal.id,
    schedule,
    name: found?.name ?? order?.name ?? schedule,
    action: found?.action ?? (order?.treat.is === 'words' ? 'look' : ('give' as Action)),
  };
  const open: RoundLine = { ...base, state: 'open', reason: '', record: null, run: null, abnormal: false };
  const omitted = own.findLast((record) => record.kind === 'treatment-not-given' && record.body.schedule === schedule);
  const notDone: RoundLine | null =
    omitted?.kind === 'treatment-not-given'
      ? { ...open, state: 'not-done', reason: omitted.body.reason, record: omitted.id }
      : null;
  switch (base.action) {
    case 'test':
      return testLine(animal, round, schedule, open) ?? notDone ?? open;
    case 'chip':
      return chipLine(animal, own, open) ?? notDone ?? open;
    case 'weigh': {
      const weighed = own.findLast((record) => record.kind === 'animal-weighed');
      if (weighed?.kind !== 'animal-weighed') return notDone ?? open;
      const isDoubted = animal.weighings.some(({ record, doubtful }) => record === weighed.id && doubtful);
      return { ...open, state: 'done', record: weighed.id, abnormal: isDoubted };
    }
    case 'look':
      return lookLine(animal, own, found?.satisfiedBy ?? [schedule], open) ?? notDone ?? open;
    case 'give': {
      const given = own.findLast((record) => record.kind === 'treatment-given' && record.body.schedule === schedule);
      if (given?.kind !== 'treatment-given') return notDone ?? open;
      return { ...open, state: 'done', record: given.id, abnormal: given.body.outcome !== 'taken' };
    }
  }
}

/** A look is done when what it asks about was noted on the round, or the chip was read again. */
function lookLine(
  animal: Animal,
  own: readonly LogRecord[],
  codes: readonly string[],
  open: RoundLine,
): RoundLine | null {
  const noted = own.findLast((record) => record.kind === 'observation-noted' && codes.includes(record.body.code));
  if (noted?.kind === 'observation-noted') {
    const { answer, code } = noted.body;
    const done = { ...open, state: 'done' as const, record: noted.id };
    // A look with the lamp that does not say what it showed is not as it should be, either.
    return code === lampCode
      ? { ...done, ...(answer === null ? {} : { answer }), abnormal: answer !== 'no-glow' }
      : done;
  }
  if (!codes.includes('chip-read')) return null;
  const scan = own.findLast(
    (record) =>
      record.kind === 'chip-scanned' &&
      record.body.target === 'animal' &&
      (record.body.occasion === 'recheck' || record.body.occasion === 'exit'),
  );
  if (scan?.kind !== 'chip-scanned') return null;
  // Another number than the one on record stays open until somebody has answered it.
  if (openDifference(animal, own) !== null) {
    return { ...open, record: scan.id, abnormal: true, chip: 'two-numbers' };
  }
  const found = scan.body.found?.code ?? null;
  const done: RoundLine = { ...open, state: 'done', record: scan.id };
  if (found !== null && found === animal.chip?.code) return done;
  return { ...done, abnormal: true, chip: found === null ? 'unread' : 'two-numbers' };
}

function testLine(animal: Animal, round: RoundId, schedule: ScheduleId, open: RoundLine): RoundLine | null {
  const run = animal.runs.findLast((one) => one.round === round && one.schedule === schedule);
  if (run === undefined) return null;
  // A failed draw leaves a run without usable blood: it may be tried again.
  if (run.drawnAt === null && run.startedAt === null && run.result === 'running') return null;
  if (run.result === 'running') return { ...open, state: 'running', run, record: run.startRecord };
  return { ...open, state: 'done', run, record: run.readRecord, abnormal: run.result !== 'negative' };
}

function chipLine(animal: Animal, own: readonly LogRecord[], open: RoundLine): RoundLine | null {
  const course = chipCourse(own, animal.scans);
  switch (course.is) {
    case 'same':
      // Another number was left to the desk before: what is read since is no answer to it.
      return animal.chip?.differs === undefined
        ? { ...open, state: 'done', record: course.implant.id }
        : {
            ...open,
            state: 'not-done',
            reason: 'chip-differs',
            record: course.implant.id,
            abnormal: true,
            chip: 'two-numbers',
          };
    case 'scan-after':
      return { ...open, state: 'part', record: course.implant.id };
    case 'differs':
    case 'unreadable':
    case 'gone':
      // Neither number is trusted, or none can be read: the chip is not done, and left to the desk it has that reason.
      return {
        ...open,
        ...(course.scan.body.leftToDesk
          ? { state: 'not-done', reason: course.is === 'differs' ? 'chip-differs' : 'chip-unread' }
          : { state: 'part' }),
        record: course.implant.id,
        abnormal: true,
        chip: course.is === 'differs' ? 'two-numbers' : 'unread',
      };
    default:
      return null;
  }
}
