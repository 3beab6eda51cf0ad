import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byHand } from '../../../../test/support/by-hand/people.js';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { families, madeSection } from '../../../../test/support/plan-families.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { type Instance, stepName } from '../model/instance.js';
import { usualSettings, withSettings } from '../model/settings.js';
import { type Plan, planSection } from './search.js';

const faultsOf = (section: Instance, plan: Plan): readonly string[] =>
  checkPlan(
    section,
    plan.steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration })),
  ).faults;

/** Any section of any family, up to 7 tests. */
const anySection = fc
  .tuple(fc.constantFrom(...families), fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 1e6 }))
  .map(([family, tests, seed]) => madeSection(family, tests, seed));

describe('the plan of a section', () => {
  it('keeps every rule, whatever the section and the time allowed. Verifies: PLAN-R1, PLAN-R12', () => {
    fc.assert(
      fc.property(anySection, fc.constantFrom(1, 1.5, 2), fc.integer({ min: 0, max: 60 }), (section, rho, asks) => {
        const plan = planSection(section, { rho, keepGoing: atMost(asks) });
        expect(plan).not.toBeNull();
        if (plan === null) return;
        expect(faultsOf(section, plan)).toEqual([]);
        expect(plan.end).toBeGreaterThanOrEqual(plan.bounds.best);
      }),
      { numRuns: 30 },
    );
  });

  it('is the same plan for the same question. Verifies: PLAN-R12', () => {
    const section = madeSection('alltest', 7, 4711);
    const ask = (): Plan | null => planSection(section, { rho: 1, keepGoing: atMost(300) });
    expect(ask()).toEqual(ask());
  });

  it('tells better plans as it finds them, each better than the one before. Verifies: PLAN-R12', () => {
    const seen: Plan[] = [];
    const plan = planSection(madeSection('alltest', 8, 20803), {
      rho: 1,
      keepGoing: atMost(300),
      onBetter: (better) => seen.push(better),
    });
    expect(seen.at(-1)).toEqual(plan);
    for (const [i, next] of seen.entries()) {
      const before = seen[i - 1];
      if (before !== undefined) expect(next.end * 1e5 + next.spread).toBeLessThan(before.end * 1e5 + before.spread);
    }
  });

  it('is never longer than the careful person. Verifies: PLAN-R5', () => {
    fc.assert(
      fc.property(anySection, (section) => {
        const careful = byHand(section, 'careful');
        fc.pre(careful.feasible);
        const plan = planSection(section, { rho: 1, keepGoing: atMost(120) });
        expect(plan?.end).toBeLessThanOrEqual(careful.end);
      }),
      { numRuns: 20 },
    );
  });

  // Verifies: PLAN-R8
  it('with double lengths never begins a step that could make a reading late', () => {
    fc.assert(
      fc.property(anySection, (section) => {
        const plan = planSection(section, { rho: 2, keepGoing: atMost(40) });
        const readings = plan?.steps.filter((step) => step.is === 'reading') ?? [];
        for (const reading of readings) {
          const start = plan?.steps.find((step) => step.is === 'start-test' && step.animal === reading.animal);
          const since = (start?.start ?? 0) + (start?.duration ?? 0);
          const between = plan?.steps.filter((step) => step.start >= since && step.start < reading.start) ?? [];
          for (const step of between) {
            const length = step.is === 'reading' ? step.duration : 2 * step.duration;
            expect(step.start + length).toBeLessThanOrEqual(since + section.test.readLagMax);
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  it('keeps the limit of two, four minutes of waiting blood and no putting back by default. Verifies: PLAN-R11', () => {
    const section = withSettings(madeSection('split', 8, 99), usualSettings);
    expect(section.test).toMatchObject({ runningLimit: 2, sampleHoldMax: 8 });
    expect(section.splitVisitAllowed).toBe(false);
    const plan = planSection(section, { keepGoing: atMost(100) });
    if (plan === null) throw new Error('no plan');
    expect(faultsOf(section, plan)).toEqual([]);
    expect(plan.peakRunning).toBeLessThanOrEqual(2);
  });

  it('gives no plan when blood would spoil before its kit is warm', () => {
    const section = sectionOf('Ada:draw5', { kitReadyAt: [0], test: { sampleHoldMax: 0 } });
    expect(planSection(section)).not.toBeNull();
    const waits = sectionOf('Ada:draw5', { kitReadyAt: [50], test: { sampleHoldMax: 0 } });
    expect(planSection(waits)?.steps.find((step) => step.kind === 'start-test')?.start).toBe(50);
  });

  it('puts an animal without a test at the end, while the last test runs', () => {
    const plan = planSection(sectionOf('Ada:injection2,oral2 Bo:draw5 Cleo:chip3,oral2'), { rho: 1 });
    const order = [...new Set(plan?.steps.filter((step) => step.is === 'handling').map((step) => step.animal))];
    expect(order[0]).toBe('Bo');
  });
});
