import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../../test/support/plan-checker.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { animalsMet, type Instance, stepName } from '../model/instance.js';
import { atStart } from '../model/run-state.js';
import { replan } from '../replay/replan.js';
import { planInOrder } from './in-order.js';
import { planSection } from './search.js';
import { laterThan, wishedOrder } from './wished.js';

/** The plan that keeps a wish, as far as the rules allow. */
function keeping(instance: Instance, wish: readonly string[]) {
  const fitted = wishedOrder(instance, wish);
  const made = planInOrder(instance, fitted.order);
  if (!made.ok) return null;
  const { steps, end } = made.value;
  return { ...fitted, steps, end, waits: laterThan(fitted.order, steps) };
}

describe('an order that a person asked for. Verifies: PLAN-R19', () => {
  const section = sectionOf('Ada:draw5,chip3 Bo:oral2 | Cleo:draw4,oral1 Dot:chip2 Eve:oral3');
  const wish = ['Dot', 'Eve', 'Cleo', 'Bo', 'Ada'];

  it('is followed when the plan is made anew, though another would be shorter', () => {
    const best = planSection(section);
    const kept = keeping(section, wish);
    expect(kept).toMatchObject({ order: wish, added: [], parted: false, waits: [] });
    expect(animalsMet(kept?.steps ?? [])).toEqual(wish);
    expect(kept?.end).toBeGreaterThan(best?.end ?? 0);
  });

  it('outlasts animals that go and come, and keeps litters together', () => {
    const now = sectionOf('Ada:draw5,chip3 Bo:oral2 New:oral1 | Cleo:draw4,oral1 Eve:oral3');
    expect(wishedOrder(now, wish)).toEqual({
      order: ['Eve', 'Cleo', 'Bo', 'Ada', 'New'],
      added: ['New'],
      parted: false,
    });
    expect(wishedOrder(section, ['Eve', 'Ada', 'Cleo'], ['Dot', 'Bo'])).toMatchObject({
      order: ['Eve', 'Cleo', 'Dot', 'Ada', 'Bo'],
      added: ['Dot', 'Bo'],
      parted: true,
    });
    expect(wishedOrder(section, ['Eve', 'Eve', 'nobody']).order.filter((one) => one === 'Eve')).toEqual(['Eve']);
    expect(wishedOrder(section, ['Eve', 'Eve', 'nobody']).order).not.toContain('nobody');
    // Ada's draw has to wait until Cleo's test is read; New can be done meanwhile.
    const kept = keeping(now, wish);
    expect(animalsMet(kept?.steps ?? [])).toEqual(['Eve', 'Cleo', 'Bo', 'New', 'Ada']);
    expect(kept?.waits).toEqual(['Ada']);
  });

  it('gives way to the read window, and says who comes later than asked', () => {
    // The limit of one running test and blood that may not wait: Bo's draw has to wait for Ada's reading.
    const tight = sectionOf('Ada:draw5 Bo:draw5,chip3 Cleo:oral2', { test: { runningLimit: 1, sampleHoldMax: 2 } });
    const kept = keeping(tight, ['Ada', 'Bo', 'Cleo']);
    expect(kept?.waits).toEqual(['Bo']);
    const steps = kept?.steps ?? [];
    expect(
      checkPlan(
        tight,
        steps.map((step) => ({ op: stepName(step), start: step.start, duration: step.duration })),
      ).faults,
    ).toEqual([]);
  });

  it('is kept in the middle of a round, where the shortest order would take its place', () => {
    const state = { ...atStart, now: 4, openLitter: 'L2' };
    const previous = keeping(section, wish)?.steps ?? [];
    const without = replan(section, previous, { state });
    expect(without?.sameOrder).toBe(false);
    const kept = replan(section, previous, { state, wished: wish });
    expect(animalsMet(kept?.plan.steps ?? [])).toEqual(wish);
    expect(kept?.sameOrder).toBe(true);
    expect(kept?.plan.end).toBeGreaterThan(without?.plan.end ?? 0);
    const gone = { ...state, animals: [{ id: 'Dot', done: 0, sample: null, leave: 'everything' as const }] };
    expect(animalsMet(replan(section, previous, { state: gone, wished: wish })?.plan.steps ?? [])).toEqual(
      wish.slice(1),
    );
  });

  it('is nothing when no plan is possible', () => {
    const text = 'Ada:draw5';
    expect(keeping(sectionOf(text, { kitReadyAt: [0] }), ['Ada'])).not.toBeNull();
    const bare = sectionOf(text, { test: { runningLimit: 1 } });
    const litters = bare.litters.map((litter) => ({
      ...litter,
      animals: litter.animals.map((animal) => ({ ...animal, kits: ['felv', 'fiv'] })),
    }));
    expect(keeping({ ...bare, litters }, ['Ada'])).toBeNull();
  });
});
