import { describe, expect, it } from 'vitest';
import { families, madeSection } from '../../../../test/support/plan-families.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { endOf, type Instance, type Step, stepName } from '../model/instance.js';
import { problemOf } from '../model/problem.js';
import { type AnimalState, RunState } from '../model/run-state.js';
import { boundsOf } from '../search/bound.js';
import { planSection } from '../search/search.js';
import { changesBetween } from './changes.js';
import { withoutLost } from './lost.js';
import { replan } from './replan.js';

const ward = sectionOf(
  'Ada:draw5,chip2,oral1 Bo:injection2,oral1 | Cleo:draw6,injection2 Dot:oral2 | Eve:draw4,oral1 Fin:topical1',
);
const planOf = (section: Instance): readonly Step[] => planSection(section)?.steps ?? [];

/** The state after the first steps of a plan, done exactly as planned. */
function stateAfter(section: Instance, steps: readonly Step[], count: number): RunState {
  const done = [...steps].sort((a, b) => a.start - b.start).slice(0, count);
  const animals = new Map<string, AnimalState>();
  let openLitter: string | null = null;
  let openAnimal: string | null = null;
  for (const step of done) {
    const end = step.start + step.duration;
    if (step.is === 'gloves') [openLitter, openAnimal] = [step.litter, null];
    const id = step.animal ?? '';
    const own = animals.get(id) ?? { id, done: 0, sample: null, leave: 'nothing' };
    const animal = section.litters.flatMap((litter) => litter.animals).find((one) => one.id === id);
    if (animal === undefined) continue;
    if (step.is === 'handling') {
      const isDraw = animal.tested && step.op === 0;
      const sample: AnimalState['sample'] = isDraw ? { is: 'waiting', since: end } : own.sample;
      animals.set(id, { ...own, done: own.done + 1, sample });
      openAnimal = own.done + 1 < animal.ops.length ? id : null;
    } else animals.set(id, { ...own, sample: step.is === 'reading' ? { is: 'read' } : { is: 'running', since: end } });
  }
  return RunState.parse({ now: endOf(done), animals: [...animals.values()], openLitter, openAnimal });
}

describe('planning in the middle of a round', () => {
  // Verifies: PLAN-R9
  it('goes on with the same plan when everything went as planned, from every moment', () => {
    const steps = planOf(ward);
    for (let count = 0; count < steps.length; count += 1) {
      const again = replan(ward, steps, { state: stateAfter(ward, steps, count) });
      expect(again?.plan.steps.map(stepName), `after ${count}`).toEqual(steps.slice(count).map(stepName));
      expect(again?.plan.end).toBe(endOf(steps));
      expect(again?.changes).toEqual([]);
    }
  });

  it('begins when what is in hand is over, and reads the running test in its window', () => {
    const steps = planOf(ward);
    const at = steps.findIndex((step) => step.is === 'start-test') + 1;
    const state = stateAfter(ward, steps, at);
    const late = { ...state, now: state.now + 3 };
    const again = replan(ward, steps, { state: late });
    expect(Math.min(...(again?.plan.steps ?? []).map((step) => step.start))).toBeGreaterThanOrEqual(late.now);
    const running = state.animals.find((one) => one.sample?.is === 'running');
    const since = running?.sample?.is === 'running' ? running.sample.since : Number.NaN;
    const reading = again?.plan.steps.find((step) => step.is === 'reading' && step.animal === running?.id);
    expect(reading?.start).toBeGreaterThanOrEqual(since + 16);
    expect(reading?.start).toBeLessThanOrEqual(since + 18);
  });

  it('leaves out who cannot be found, with the order of the others kept', () => {
    const steps = planOf(ward);
    const state = stateAfter(ward, steps, 0);
    const gone = RunState.parse({ ...state, animals: [{ id: 'Dot', leave: 'everything' }] });
    const again = replan(ward, steps, { state: gone });
    expect(again?.plan.steps.some((step) => step.animal === 'Dot')).toBe(false);
    expect(again?.changes).toContainEqual({ say: 'plan.change.left-out', with: { animal: 'Dot' } });
    expect(again?.sameOrder).toBe(true);
  });

  it('plans the rest of an animal whose draw failed, without a test', () => {
    const steps = planOf(ward);
    const state = RunState.parse({
      now: 20,
      animals: [{ id: 'Ada', done: 0, leave: 'test' }],
      openLitter: 'L1',
      openAnimal: 'Ada',
    });
    const again = replan(ward, steps, { state });
    expect(again?.plan.steps.filter((step) => step.animal === 'Ada').map((step) => step.kind)).toEqual([
      'chip',
      'oral',
    ]);
    expect(again?.plan.steps[0]).toMatchObject({ animal: 'Ada', kind: 'chip', duration: 2 });
    expect(again?.changes).toContainEqual({ say: 'plan.change.test-left-out', with: { animal: 'Ada' } });
  });

  it('draws again from an animal that is still out without fetching it again', () => {
    const state = RunState.parse({ now: 10, openLitter: 'L1', openAnimal: 'Ada' });
    const first = replan(ward, [], { state })?.plan.steps[0];
    expect(first).toMatchObject({ animal: 'Ada', kind: 'draw', duration: 5 });
  });

  it('starts a test again with a second kit from the same blood', () => {
    const warming = { ...ward, kitReadyAt: [0, 0, 30, 60] };
    const animals = [{ id: 'Ada', done: 3, sample: { is: 'waiting' as const, since: 24 } }];
    const state = RunState.parse({ now: 25, animals, openLitter: 'L1', kitsUsed: 2 });
    const start = replan(warming, [], { state })?.plan.steps.find(
      (step) => step.is === 'start-test' && step.animal === 'Ada',
    );
    expect(start?.start).toBeGreaterThanOrEqual(30);
    expect(start?.start).toBeLessThanOrEqual(32);
  });

  it('keeps what needs two people until both are there', () => {
    const state = RunState.parse({ now: 0, secondPersonFrom: 40 });
    const steps = replan(ward, planOf(ward), { state })?.plan.steps ?? [];
    const two = steps.filter((step) => step.kind === 'draw' || step.kind === 'chip');
    expect(two.length).toBeGreaterThan(0);
    for (const step of two) expect(step.start).toBeGreaterThanOrEqual(40);
    expect(steps.some((step) => step.is === 'handling' && step.start < 40)).toBe(true);
  });

  it('names a test that can no longer be read in time and plans the rest', () => {
    const animals = [{ id: 'Ada', done: 3, sample: { is: 'running' as const, since: 10 } }];
    const state = RunState.parse({ now: 29, animals });
    expect(withoutLost(ward, state).lost).toEqual(['Ada']);
    const again = replan(ward, planOf(ward), { state });
    expect(again?.lost).toEqual(['Ada']);
    expect(again?.plan.steps.some((step) => step.is === 'reading' && step.animal === 'Ada')).toBe(false);
    expect(again?.changes[0]).toEqual({ say: 'plan.change.lost', with: { animal: 'Ada' } });
    expect(withoutLost(ward, { ...state, now: 28 }).lost).toEqual([]);
  });

  it('speaks of blood and of no reading where the test has not started (Verifies: ROUND-R98)', () => {
    const animals = [{ id: 'Ada', done: 3, sample: { is: 'waiting' as const, since: 0 } }];
    const state = RunState.parse({ now: ward.test.sampleHoldMax + 1, animals });
    expect(replan(ward, planOf(ward), { state })?.changes[0]).toEqual({
      say: 'plan.change.blood-too-old',
      with: { animal: 'Ada' },
    });
  });

  it('changes the order only for a minute or more', () => {
    const sheet = planOf(sectionOf('Ada:oral1 Bo:draw5'));
    const wrongWay: Step[] = ['Ada', 'Bo'].map((animal, i) => {
      return { is: 'handling', litter: 'L1', animal, kind: '', op: 0, start: i, duration: 1 };
    });
    const section = sectionOf('Ada:oral1 Bo:draw5');
    const state = RunState.parse({ now: 0 });
    expect(replan(section, wrongWay, { state, worthIt: 1000 })?.sameOrder).toBe(true);
    const better = replan(section, wrongWay, { state, worthIt: 1 });
    expect(better?.sameOrder).toBe(false);
    expect(better?.plan.end).toBe(endOf(sheet));
    expect(better?.changes.map((one) => one.say)).toContain('plan.change.comes-after');
  });
});

it('has a lower bound at every moment that the plan going on does not beat. Verifies: PLAN-R3', () => {
  let moments = 0;
  for (const family of families) {
    for (const seed of [11, 12, 13]) {
      const section = madeSection(family, 4, seed);
      const steps = planSection(section, { rho: 1, keepGoing: atMost(60) })?.steps ?? [];
      for (let count = 1; count < steps.length; count += 1) {
        const state = stateAfter(section, steps, count);
        const { best } = boundsOf(problemOf(section, 1, state));
        expect(best, `${section.id} after ${count}`).toBeLessThanOrEqual(endOf(steps));
        moments += 1;
      }
    }
  }
  expect(moments).toBeGreaterThan(500);
});

it('tells the fewest animals that moved, and by how much the end moved. Verifies: PLAN-R9', () => {
  const steps = (...animals: string[]): Step[] =>
    animals.map((animal, i) => ({
      is: 'handling',
      litter: 'L1',
      animal,
      kind: 'oral',
      op: 0,
      start: 10 * i,
      duration: 10,
    }));
  const state = RunState.parse({ now: 0 });
  const moved = changesBetween(ward, steps('Ada', 'Bo', 'Cleo', 'Dot'), steps('Bo', 'Cleo', 'Ada', 'Dot'), state);
  expect(moved).toEqual([{ say: 'plan.change.comes-after', with: { animal: 'Ada', other: 'Cleo' } }]);
  const shorter = changesBetween(ward, steps('Ada', 'Bo', 'Cleo', 'Dot'), steps('Cleo', 'Ada', 'Bo'), state);
  expect(shorter).toEqual([
    { say: 'plan.change.now-first', with: { animal: 'Cleo' } },
    { say: 'plan.change.earlier', with: { minutes: 5 } },
  ]);
});
