import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byOrder, byPlanning } from '../../../../test/support/by-hand/acting.js';
import { byHand } from '../../../../test/support/by-hand/people.js';
import { simulate } from '../../../../test/support/by-hand/simulate.js';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { Instance, type Step, stepName } from '../model/instance.js';
import { kitClockOf } from '../model/kits.js';
import { problemOf } from '../model/problem.js';
import { atStart, stateFaults } from '../model/run-state.js';
import { boundsOf } from '../search/bound.js';
import { planInOrder } from '../search/in-order.js';
import { planSection } from '../search/search.js';
import { replan } from './replan.js';

const both = ['felv', 'fiv'];
/** The section with two kits for the animals named, FIV with a window of its own when `fiv` says so. */
const withBoth = (section: Instance, animals: readonly string[], fiv?: [number, number]): Instance =>
  Instance.parse({
    ...section,
    test: {
      ...section.test,
      ...(fiv === undefined ? {} : { windows: { fiv: { readLagMin: fiv[0], readLagMax: fiv[1] } } }),
    },
    litters: section.litters.map((litter) => ({
      ...litter,
      animals: litter.animals.map((one) => (animals.includes(one.id) ? { ...one, kits: both } : one)),
    })),
  });
const scheduled = (steps: readonly Step[]) =>
  steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration }));
const names = (steps: readonly Step[]): string[] => steps.map(stepName);

describe('two tests from one draw. Verifies: PLAN-R16', () => {
  const section = withBoth(sectionOf('Ada:draw5,chip3 Bo:oral2'), ['Ada']);

  it('is one draw, two kits started one after another and two readings', () => {
    const plan = planSection(section);
    const steps = plan?.steps ?? [];
    expect(names(steps).filter((name) => name === 'Ada:draw')).toHaveLength(1);
    expect(names(steps).filter((name) => /start-test|read/.test(name))).toEqual([
      'Ada:start-test:felv',
      'Ada:start-test:fiv',
      'Ada:read:felv',
      'Ada:read:fiv',
    ]);
    expect(checkPlan(section, scheduled(steps)).faults).toEqual([]);
    expect(plan?.peakRunning).toBe(2);
  });

  it('keeps a window of its own for each kind, and starts the one that runs longest first', () => {
    const own = withBoth(sectionOf('Ada:draw5,chip3 Bo:oral2 Cleo:draw4'), ['Ada'], [20, 26]);
    expect(kitClockOf(own)).toMatchObject({ lagMin: 16, lagMax: 18 });
    expect(kitClockOf(own).later('fiv')).toBe(4);
    const plan = planSection(own);
    expect(checkPlan(own, scheduled(plan?.steps ?? [])).faults).toEqual([]);
    const starts = plan?.steps.filter((step) => step.is === 'start-test' && step.animal === 'Ada') ?? [];
    expect(starts.map((step) => step.kit)).toEqual(['fiv', 'felv']);
  });

  it('has no plan when only one test may run at once and blood may not wait for the reading', () => {
    const one = { ...section, test: { ...section.test, runningLimit: 1 } };
    expect(planSection(one)).toBeNull();
    expect(planSection({ ...one, test: { ...one.test, sampleHoldMax: 60 } })).not.toBeNull();
  });

  it('needs a kit for each test', () => {
    expect(Instance.safeParse({ ...section, kitReadyAt: [0] }).success).toBe(false);
    const cold = Instance.parse({ ...section, kitReadyAt: [0, 30] });
    const plan = planSection(cold);
    expect(checkPlan(cold, scheduled(plan?.steps ?? [])).faults).toEqual([]);
    expect(plan?.end).toBeGreaterThanOrEqual(30 + 2 + 16 + 2);
  });

  it('keeps every rule, whatever the section, and never ends before its bound', () => {
    const animal = fc.record({
      tested: fc.boolean(),
      two: fc.boolean(),
      rest: fc.array(fc.constantFrom('chip3', 'oral2', 'injection1'), { maxLength: 3 }),
    });
    fc.assert(
      fc.property(
        fc.array(fc.array(animal, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 14, max: 24 }),
        // Narrower than one reading, two kits of one draw could not both be read.
        fc.integer({ min: 2, max: 6 }),
        fc.boolean(),
        fc.constantFrom(1, 2),
        (litters, opens, width, putBack, rho) => {
          const two: string[] = [];
          const text = litters.map((own, l) =>
            own.map(({ tested, two: more, rest }, a) => {
              const id = `A${l}${a}`;
              if (tested && more) two.push(id);
              const ops = [...(tested ? ['draw4'] : []), ...rest];
              return `${id}:${(ops.length === 0 ? ['oral1'] : ops).join(',')}`;
            }),
          );
          const bare = sectionOf(text.map((own) => own.join(' ')).join('|'), { splitVisitAllowed: putBack });
          const made = withBoth(bare, two, [opens, opens + width]);
          const plan = planSection(made, { rho, keepGoing: atMost(40) });
          if (plan === null) throw new Error('no plan');
          expect(checkPlan(made, scheduled(plan.steps)).faults).toEqual([]);
          expect(boundsOf(problemOf(made, rho)).best).toBeLessThanOrEqual(plan.end);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('goes on from the middle: one test running, the blood for the other still waiting', () => {
    const state = {
      ...atStart,
      now: 12,
      openLitter: 'L1',
      openAnimal: 'Ada',
      animals: [
        {
          id: 'Ada',
          done: 1,
          leave: 'nothing' as const,
          sample: { is: 'running' as const, since: 11, kit: 'felv' },
          more: [{ is: 'waiting' as const, since: 9, kit: 'fiv' }],
        },
      ],
    };
    expect(stateFaults(section, state)).toEqual([]);
    const steps = replan(section, planSection(section)?.steps ?? [], { state })?.plan.steps ?? [];
    const tests = steps.filter((step) => step.is !== 'handling' && step.is !== 'gloves');
    expect(tests.map(stepName)).toEqual(['Ada:start-test:fiv', 'Ada:read:felv', 'Ada:read:fiv']);
    const [start, felv, fiv] = tests;
    expect(start?.start).toBeLessThanOrEqual(9 + 8);
    expect(felv?.start).toBeGreaterThanOrEqual(11 + 16);
    expect(felv?.start).toBeLessThanOrEqual(11 + 18);
    expect(fiv?.start).toBeGreaterThanOrEqual((start?.start ?? 0) + 2 + 16);
  });

  it('names the one whose window has passed and still reads the other', () => {
    const running = (since: number, kit: string) => ({ is: 'running' as const, since, kit });
    const state = {
      ...atStart,
      now: 30,
      animals: [
        { id: 'Ada', done: 2, leave: 'nothing' as const, sample: running(8, 'felv'), more: [running(13, 'fiv')] },
        { id: 'Bo', done: 1, leave: 'nothing' as const, sample: null },
      ],
    };
    const replanned = replan(section, [], { state });
    expect(replanned?.lost).toEqual(['Ada']);
    expect(names(replanned?.plan.steps ?? [])).toEqual(['Ada:read:fiv']);
  });

  it('follows an order that somebody wants', () => {
    const three = withBoth(sectionOf('Ada:draw5,chip3 Bo:oral2 Cleo:draw4'), ['Ada'], [18, 20]);
    const made = planInOrder(three, ['Cleo', 'Bo', 'Ada']);
    expect(made.ok && checkPlan(three, scheduled(made.value.steps)).faults).toEqual([]);
  });

  it('is worked to its end by a sheet, by a plan and by planning, without a reading missed', () => {
    const own = withBoth(sectionOf('Ada:draw5,chip3 Bo:oral2'), ['Ada'], [20, 26]);
    const calm = { stretch: () => 1, fails: () => false, interruption: () => 0 };
    const plan = planSection(own, { rho: 1 });
    const steps = plan?.steps ?? [];
    for (const acting of [
      byOrder(own, steps, { lookAhead: 1 }),
      byOrder(own, byHand(own, 'careful').steps, { lookAhead: 1 }),
      byPlanning(own, steps, { rho: 1, firstWidth: 12, keepGoing: () => false }),
    ])
      expect(simulate(own, acting, calm)).toMatchObject({ readings: 2, missed: 0, stale: 0 });
    expect(byHand(own, 'careful').end).toBeGreaterThanOrEqual(plan?.end ?? 0);
  });
});
