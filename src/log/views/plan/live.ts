import { secondsUntil } from '../../../core/point-of-care/kit.js';
import { endOf, type Instance, type Step } from '../../../core/round/plan/instance.js';
import { replan } from '../../../core/round/plan/replan.js';
import { atStart, type RunState } from '../../../core/round/plan/run-state.js';
import { type Said, said } from '../../../core/said.js';
import type { RibbonVisit } from '../../kinds/ribbon.js';
import { type RoundView, roundOf, type SectionStop } from '../round.js';
import type { World } from '../world.js';
import { type Timed, timedIn } from './durations.js';
import { zeroOf } from './happened.js';
import { warmFrom, warmingOf } from './kits.js';
import { isLeft, leftToDo } from './left-to-do.js';
import { settingsOf, unitSeconds } from './settings.js';
import { buildStop, kitTypesOf, litterIdOf } from './stop.js';

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
  for (const at of inTurn(view)) {
    const before = old?.visits.find((visit) => visit.section === at.section.id);
    const one = visitAhead(world, view, at, before, time_s, timed, how);
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
  const planned_s = old === undefined ? null : Math.max(0, ...old.visits.map((visit) => visit.end * old.unitSeconds));
  return { ahead, changes, lost, end_s: time_s, later_s: planned_s === null ? null : time_s - planned_s };
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
  how: Replanning,
): { readonly plan: AheadVisit | null; readonly changes: readonly Said[]; readonly lost: readonly string[] } | null {
  const inside = at.state === 'inside';
  const entered = view.facts.visits.findLast((visit) => visit.section === at.section.id)?.enteredAt;
  const settings = view.facts.plan.ribbon?.settings ?? settingsOf(world.shelter);
  const from = inside && entered !== undefined ? entered : how.now;
  const left = leftToDo(world, at, from);
  const built = buildStop(world, left.stop, timed, settings);
  const { don, doff, cartDisinfection } = built.stop;
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
  const types = kitTypesOf(world, left.stop);
  const kits = kitTimes(world, types, how.now, inside_s - secondsUntil(zeroOf(view), how.now));
  const section = withKitsOut(built.stop.section, left.states, kits);
  const state: RunState = inside
    ? inHand(world, view, at, left.states, from, how)
    : { ...atStart, animals: [...left.states] };
  const previous = left.renumbered(before?.steps ?? []);
  const options = { state, ...(how.keepGoing === undefined ? {} : { keepGoing: how.keepGoing }) };
  const sound = replan(section, previous, options);
  // Blood that has to wait longer than it may for a cold kit is told, and the rest is planned all the same.
  const found = sound ?? replan(waitingForKits(section), previous, options);
  if (found === null) return { plan: null, changes: [], lost: [] };
  const cold = sound === null ? [said('ribbon.kits-cold', { section: at.section.name })] : [];
  const order = found.changes.filter((one) => one.say !== 'plan.change.later' && one.say !== 'plan.change.earlier');
  return { plan: finish(found.plan.steps, time_s), changes: [...cold, ...order], lost: found.lost };
}

const waitingForKits = (section: Instance): Instance => ({
  ...section,
  test: { ...section.test, sampleHoldMax: Math.max(0, ...(section.kitReadyAt ?? [])) + 60 },
});

/** Units from the planner's zero at which each kit that is out is warm, and when one taken out now would be. */
function kitTimes(world: World, types: readonly string[], now: string, insideFromNow_s: number) {
  const { warm_s } = warmingOf(world, types);
  const units = (fromNow_s: number): number => Math.max(0, Math.ceil((fromNow_s - insideFromNow_s) / unitSeconds));
  return { out: warmFrom(world, types, now).map(units), fresh: units(warm_s) };
}

function withKitsOut(
  section: Instance,
  states: readonly { readonly sample: { readonly is: string } | null }[],
  kits: { readonly out: readonly number[]; readonly fresh: number },
): Instance {
  const tests = section.litters.reduce((sum, one) => sum + one.animals.filter((animal) => animal.tested).length, 0);
  if (tests === 0) return section;
  const used = states.filter((one) => one.sample?.is === 'running').length;
  const ready = [...Array<number>(used).fill(0), ...kits.out].slice(0, tests);
  return { ...section, kitReadyAt: [...ready, ...Array<number>(tests - ready.length).fill(kits.fresh)] };
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
  const stop = at.animals.find((one) => one.animal.id === last);
  const out = stop !== undefined && states.some((one) => one.id === last && one.leave === 'nothing');
  const litter = stop === undefined ? null : litterIdOf(at.section.id, stop.animal);
  const known = at.animals.some(
    (one) => states.some((own) => own.id === one.animal.id) && litterIdOf(at.section.id, one.animal) === litter,
  );
  return {
    now,
    animals: [...states],
    openLitter: known ? litter : null,
    openAnimal:
      out && stop.lines.some((line) => line.action !== 'test' && line.state === 'open') ? stop.animal.id : null,
    secondPersonFrom: how.aloneFor_s === undefined ? 0 : now + Math.ceil(how.aloneFor_s / unitSeconds),
    kitsUsed: 0,
  };
}

/** The animal that was in hand last: the latest record of the round that touches one. */
function lastTouched(world: World, view: RoundView, at: SectionStop): string | null {
  let last: { readonly animal: string; readonly at: string } | null = null;
  for (const { animal } of at.animals) {
    for (const record of world.bySubject.get(`animal:${animal.id}`) ?? []) {
      if (roundOf(record) !== view.facts.id || record.kind === 'test-read' || record.kind === 'test-started') continue;
      if (last === null || record.happenedAt > last.at) last = { animal: animal.id, at: record.happenedAt };
    }
  }
  return last?.animal ?? null;
}

/** Which animal of a section comes next by the plan that was laid down, other than `except`; null without a plan. */
export function nextByPlan(view: RoundView, at: SectionStop, except = ''): SectionStop['animals'][number] | null {
  const visit = view.facts.plan.ribbon?.visits.find((one) => one.section === at.section.id);
  if (visit === undefined) return null;
  const order = visit.steps.filter((step) => step.is === 'handling').sort((a, b) => a.start - b.start);
  for (const step of order) {
    const stop = at.animals.find((one) => one.animal.id === step.animal);
    if (stop !== undefined && stop.animal.id !== except && stop.lines.some(isLeft)) return stop;
  }
  return null;
}
