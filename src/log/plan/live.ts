import { dayOfInstant } from '../../core/calendar.js';
import { secondsUntil } from '../../core/point-of-care/kit.js';
import { endOf, type Instance, type Step, testedCount } from '../../core/route-plan/model/instance.js';
import { atStart, type RunState, startedIn } from '../../core/route-plan/model/run-state.js';
import { replan } from '../../core/route-plan/replay/replan.js';
import { forPeople } from '../../core/route-plan/whole-round/visits.js';
import { type Said, said } from '../../core/said.js';
import type { RibbonVisit } from '../kinds/ribbon.js';
import { isStopped } from '../views/round/identity.js';
import { isLeft } from '../views/round/is-left.js';
import { type AnimalStop, type RoundView, roundOf, type SectionStop } from '../views/round/round.js';
import { dueIn, type World } from '../views/world.js';
import { addedInWords } from './added.js';
import { waitingForPair } from './alone.js';
import { type Timed, timedIn } from './durations.js';
import { zeroOf } from './happened.js';
import { warmFrom, warmingOf } from './kits.js';
import { type LeftOpen, leftOpenIn } from './left-open.js';
import { type LeftToDo, leftToDo } from './left-to-do.js';
import { settingsOf, unitSeconds } from './settings.js';
import { buildStop, kitFor, kitTypesOf, litterIdOf, overdueBy } from './stop.js';
import { type ShortTests, shortTests } from './supplies.js';

/** What is still to come of one section; seconds from the zero of the round. */
export interface AheadVisit {
  readonly section: string;
  readonly start_s: number;
  readonly inside_s: number;
  readonly out_s: number;
  readonly end_s: number;
  /** Steps with times in units from `inside_s`. */
  readonly steps: readonly Step[];
  readonly unitSeconds: number;
}

export interface LivePlan {
  readonly ahead: readonly AheadVisit[];
  /** How the plan differs from the one that was laid down, for people who have that one in mind. */
  readonly changes: readonly Said[];
  readonly end_s: number;
  /** Against the plan as laid down; below 0 is earlier. Null when there was none. */
  readonly later_s: number | null;
  /** Animals whose test can no longer be read in time. */
  readonly lost: readonly string[];
  readonly leftOpen: readonly LeftOpen[];
}

export interface Replanning {
  readonly now: string;
  /** Seconds from now until two people are together again; 0 when they are. */
  readonly aloneFor_s?: number;
  readonly keepGoing?: () => boolean;
}

/**
 * What is left of a running round, planned again from what has really happened: the section people are in from this
 * moment, the later ones after it, in the order of the old plan unless another saves a minute. Pure.
 */
export function liveRound(world: World, view: RoundView, how: Replanning): LivePlan {
  const zero = zeroOf(view);
  const old = view.facts.plan.ribbon;
  const timed = timedIn(world);
  const ahead: AheadVisit[] = [];
  const changes: Said[] = [];
  const lost: string[] = [];
  let time_s = Math.max(0, secondsUntil(zero, how.now));
  const short = shortOn(world, view, how.now);
  changes.push(
    ...addedInWords(view),
    ...stoppedInWords(view),
    ...short.words,
    ...(isAlone(view) ? waitingForPair(inTurn(view)) : []),
  );
  for (const whole of inTurn(view)) {
    const at = { ...whole, animals: whole.animals.filter((stop) => !isHeldUp(stop)) };
    const before = old?.visits.find((visit) => visit.section === at.section.id);
    const one = visitAhead(world, view, at, before, time_s, timed, short, how);
    if (one === null) continue;
    if (one.plan === null) {
      changes.push(said('ribbon.no-plan', { section: at.section.name }));
      continue;
    }
    ahead.push(one.plan);
    changes.push(...one.changes.filter((change) => before !== undefined || change.say === 'ribbon.kits-cold'));
    lost.push(...one.lost);
    time_s = one.plan.end_s;
  }
  const leftOpen = leftOpenIn(view);
  for (const { section, animals } of leftOpen) {
    const name = view.stops.find((one) => one.section.id === section)?.section.name ?? section;
    changes.push(said('ribbon.left-open', { section: name, count: animals.length, animals: { list: animals } }));
  }
  // What was not done makes no round shorter than it was planned.
  const planned_s =
    old === undefined || leftOpen.length > 0
      ? null
      : Math.max(0, ...old.visits.map((visit) => visit.end * old.unitSeconds));
  return { ahead, changes, lost, leftOpen, end_s: time_s, later_s: planned_s === null ? null : time_s - planned_s };
}

/** Nothing is planned for it before somebody has said which animal it is; blood that was drawn waits for nobody. */
const isHeldUp = (stop: AnimalStop): boolean => isStopped(stop) && !stop.lines.some((line) => line.state === 'running');

function stoppedInWords(view: RoundView): Said[] {
  const list = inTurn(view).flatMap(({ animals }) => animals.filter(isHeldUp).map(({ animal }) => animal.id));
  return list.length === 0 ? [] : [said('ribbon.stopped', { animals: { list }, count: list.length })];
}

/** Where people are first, then what they have not been to. */
const inTurn = (view: RoundView): SectionStop[] => [
  ...view.stops.filter((stop) => stop.state === 'inside'),
  ...view.stops.filter((stop) => stop.state === 'ahead'),
];

function visitAhead(
  world: World,
  view: RoundView,
  at: SectionStop,
  before: RibbonVisit | undefined,
  time_s: number,
  timed: Timed,
  short: ShortTests,
  how: Replanning,
): { readonly plan: AheadVisit | null; readonly changes: readonly Said[]; readonly lost: readonly string[] } | null {
  const inside = at.state === 'inside';
  const entered = view.facts.visits.findLast((visit) => visit.section === at.section.id)?.enteredAt;
  const settings = view.facts.plan.ribbon?.settings ?? settingsOf(world.shelter);
  const from = inside && entered !== undefined ? entered : how.now;
  const left = leftToDo(world, at, from, { short, alone: isAlone(view) });
  const built = buildStop(world, left.stop, timed, settings);
  const { don, doff, cartDisinfection } = built.stop;
  const usual = forPeople(built.stop.section, isAlone(view) ? 1 : 2);
  const start_s = inside ? secondsUntil(zeroOf(view), from) : time_s;
  const inside_s = inside ? start_s : start_s + don * unitSeconds;
  const finish = (steps: readonly Step[], now_s: number): AheadVisit => {
    const out_s = Math.max(now_s, inside_s + endOf(steps) * unitSeconds);
    return {
      section: at.section.id,
      start_s,
      inside_s,
      out_s: out_s + doff * unitSeconds,
      end_s: out_s + (doff + cartDisinfection) * unitSeconds,
      steps,
      unitSeconds,
    };
  };
  if (left.stop.animals.length === 0) return inside ? { plan: finish([], time_s), changes: [], lost: [] } : null;
  const fromNow_s = inside_s - secondsUntil(zeroOf(view), how.now);
  const section = withKitsOut(world, usual, left, how.now, fromNow_s);
  const state: RunState = inside
    ? inHand(world, view, at, left.states, from, how)
    : { ...atStart, animals: [...left.states] };
  const previous = left.renumbered(before?.steps ?? []);
  const options = {
    state,
    ...(how.keepGoing === undefined ? {} : { keepGoing: how.keepGoing }),
    ...(before?.wished === undefined ? {} : { wished: before.wished }),
  };
  const sound = replan(section, previous, options);
  // Blood that has to wait longer than it may for a cold kit is told, and the rest is planned all the same.
  const found = sound ?? replan(waitingForKits(section), previous, options);
  if (found === null) return { plan: null, changes: [], lost: [] };
  const cold = sound === null ? [said('ribbon.kits-cold', { section: at.section.name })] : [];
  const order = found.changes.filter((one) => one.say !== 'plan.change.later' && one.say !== 'plan.change.earlier');
  return { plan: finish(found.plan.steps, time_s), changes: [...cold, ...order], lost: found.lost };
}

export const isAlone = (view: RoundView): boolean => view.facts.holder === null;

const waitingForKits = (section: Instance): Instance => ({
  ...section,
  test: { ...section.test, sampleHoldMax: Math.max(0, ...(section.kitReadyAt ?? [])) + 60 },
});

/** What is short for the tests that are still to be drawn, after those whose blood waits for its kit. */
function shortOn(world: World, view: RoundView, now: string): ShortTests {
  const today = dayOfInstant(now, world.shelter.zone);
  const stops = inTurn(view).flatMap((at) => at.animals);
  const wanted = stops.flatMap(({ animal, lines }) => {
    const schedules = lines.flatMap((line) => (line.action === 'test' && line.state === 'open' ? [line.schedule] : []));
    if (schedules.length === 0) return [];
    const due = dueIn(world, animal, today).filter((item) => schedules.includes(item.schedule));
    return [{ animal: animal.id, overdueDays: Math.max(0, ...due.map((item) => overdueBy(item, today))), schedules }];
  });
  const waiting = stops.flatMap(({ lines }) => lines.filter((line) => line.state === 'running' && isLeft(line)));
  const inUse = waiting.flatMap((line) => kitFor(world, line.schedule)?.id ?? []);
  return shortTests(world, wanted, today, inUse);
}

/**
 * Units from the planner's zero at which the kits still to be used are warm: those that are out, and the others if they
 * were taken out now. Where several kinds are used the k-th is taken to be as late as the k-th of any kind.
 */
function withKitsOut(world: World, section: Instance, left: LeftToDo, now: string, insideFromNow_s: number): Instance {
  const tests = testedCount(section.litters);
  if (tests === 0) return section;
  const used = Math.min(tests, startedIn({ animals: left.states }));
  const units = (fromNow_s: number): number => Math.max(0, Math.ceil((fromNow_s - insideFromNow_s) / unitSeconds));
  const ready = kitTypesOf(world, left.stop).map((type) => ({
    out: warmFrom(world, [type], now).map(units),
    fresh: units(warmingOf(world, [type]).warm_s),
  }));
  const kth = Array.from({ length: tests - used }, (_, k) =>
    Math.max(0, ...ready.map(({ out, fresh }) => out[k] ?? fresh)),
  );
  return { ...section, kitReadyAt: [...Array<number>(used).fill(0), ...kth].sort((a, b) => a - b) };
}

/** The state people are in: what is in their hands stays there. */
function inHand(
  world: World,
  view: RoundView,
  at: SectionStop,
  states: RunState['animals'],
  from: string,
  how: Replanning,
): RunState {
  const now = Math.ceil(Math.max(0, secondsUntil(from, how.now)) / unitSeconds);
  const last = lastTouched(world, view, at);
  const stop = at.animals.find((one) => one.animal.id === last?.animal);
  const out = stop !== undefined && states.some((one) => one.id === stop.animal.id && one.leave === 'nothing');
  const litter = stop === undefined ? null : litterIdOf(at.section.id, stop.animal);
  const known = at.animals.some(
    (one) => states.some((own) => own.id === one.animal.id) && litterIdOf(at.section.id, one.animal) === litter,
  );
  const openAnimal =
    out && stop.lines.some((line) => line.action !== 'test' && line.state === 'open') ? stop.animal.id : null;
  const doneAt = openAnimal === null && last !== null ? Math.floor(secondsUntil(from, last.at) / unitSeconds) : null;
  return {
    now,
    animals: [...states],
    openLitter: known ? litter : null,
    openAnimal,
    holderFrom: doneAt,
    secondPersonFrom: how.aloneFor_s === undefined ? 0 : now + Math.ceil(how.aloneFor_s / unitSeconds),
    kitsUsed: 0,
  };
}

interface Touched {
  readonly animal: string;
  readonly at: string;
}

/** The animal that was in hand last, and when: the latest record of the round that touches one. */
function lastTouched(world: World, view: RoundView, at: SectionStop): Touched | null {
  let last: Touched | null = null;
  for (const { animal } of at.animals) {
    for (const record of world.bySubject.get(`animal:${animal.id}`) ?? []) {
      if (roundOf(record) !== view.facts.id || record.kind === 'test-read' || record.kind === 'test-started') continue;
      if (last === null || record.happenedAt > last.at) last = { animal: animal.id, at: record.happenedAt };
    }
  }
  return last;
}
