import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { type Step, stepName } from './instance.js';
import { replan } from './replan.js';
import { atStart } from './run-state.js';
import { planSection } from './search.js';
import { planKeeping, wishedOrder } from './wished.js';

const met = (steps: readonly Step[]): string[] => [
  ...new Set(steps.filter((step) => step.is === 'handling').map((step) => step.animal ?? '')),
];

describe('an order that a person asked for. Verifies: PLAN-R19', () => {
  const section = sectionOf('Ada:draw5,chip3 Bo:oral2 | Cleo:draw4,oral1 Dot:chip2 Eve:oral3');
  const wish = ['Dot', 'Eve', 'Cleo', 'Bo', 'Ada'];

  it('is followed when the plan is made anew, though another would be shorter', () => {
    const best = planSection(section);
    const kept = planKeeping(section, wish);
    expect(kept).toMatchObject({ kept: true, order: wish, gone: [], added: [], parted: false, waits: [] });
    expect(met(kept?.plan.steps ?? [])).toEqual(wish);
    expect(kept?.plan.end).toBeGreaterThan(best?.end ?? 0);
  });

  it('outlasts animals that go and come, and keeps litters together', () => {
    const now = sectionOf('Ada:draw5,chip3 Bo:oral2 New:oral1 | Cleo:draw4,oral1 Eve:oral3');
    expect(wishedOrder(now, wish)).toEqual({
      order: ['Eve', 'Cleo', 'Bo', 'Ada', 'New'],
      gone: ['Dot'],
      added: ['New'],
      parted: false,
    });
    expect(wishedOrder(section, ['Eve', 'Ada', 'Cleo'], ['Dot', 'Bo'])).toMatchObject({
      order: ['Eve', 'Cleo', 'Dot', 'Ada', 'Bo'],
      added: ['Dot', 'Bo'],
      parted: true,
    });
    expect(wishedOrder(section, ['Eve', 'Eve', 'nobody', 'nobody']).gone).toEqual(['nobody']);
    // Ada's draw has to wait until Cleo's test is read; New can be done meanwhile.
    const kept = planKeeping(now, wish);
    expect(met(kept?.plan.steps ?? [])).toEqual(['Eve', 'Cleo', 'Bo', 'New', 'Ada']);
    expect(kept?.waits).toEqual(['Ada']);
  });

  it('gives way to the read window, and says who comes later than asked', () => {
    // The limit of one running test and blood that may not wait: Bo's draw has to wait for Ada's reading.
    const tight = sectionOf('Ada:draw5 Bo:draw5,chip3 Cleo:oral2', { test: { runningLimit: 1, sampleHoldMax: 2 } });
    const kept = planKeeping(tight, ['Ada', 'Bo', 'Cleo']);
    expect(kept?.kept).toBe(true);
    expect(kept?.waits).toEqual(['Bo']);
    const steps = kept?.plan.steps ?? [];
    expect(
      checkPlan(
        tight,
        steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration })),
      ).faults,
    ).toEqual([]);
  });

  it('is kept in the middle of a round, where the shortest order would take its place', () => {
    const state = { ...atStart, now: 4, openLitter: 'L2' };
    const previous = planKeeping(section, wish)?.plan.steps ?? [];
    const without = replan(section, previous, { state });
    expect(without?.sameOrder).toBe(false);
    const kept = replan(section, previous, { state, wished: wish });
    expect(met(kept?.plan.steps ?? [])).toEqual(wish);
    expect(kept?.sameOrder).toBe(true);
    expect(kept?.plan.end).toBeGreaterThan(without?.plan.end ?? 0);
    const gone = { ...state, animals: [{ id: 'Dot', done: 0, sample: null, leave: 'everything' as const }] };
    expect(met(replan(section, previous, { state: gone, wished: wish })?.plan.steps ?? [])).toEqual(wish.slice(1));
  });

  it('is nothing when no plan is possible', () => {
    const text = 'Ada:draw5';
    expect(planKeeping(sectionOf(text, { kitReadyAt: [0] }), ['Ada'])).not.toBeNull();
    const bare = sectionOf(text, { test: { runningLimit: 1 } });
    const litters = bare.litters.map((litter) => ({
      ...litter,
      animals: litter.animals.map((animal) => ({ ...animal, kits: ['felv', 'fiv'] })),
    }));
    expect(planKeeping({ ...bare, litters }, ['Ada'])).toBeNull();
  });
});
