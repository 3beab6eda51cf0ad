import { describe, expect, it } from 'vitest';
import { byOrder, byPlanning } from '../../../../test/support/by-hand/acting.js';
import { byHand } from '../../../../test/support/by-hand/people.js';
import { type Luck, simulate, triangular } from '../../../../test/support/by-hand/simulate.js';
import { madeSection } from '../../../../test/support/plan-families.js';
import { luckFrom } from '../../../../test/support/plan-luck.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { atMost } from '../model/budget.js';
import { chanceFrom } from '../model/chance.js';
import { Instance } from '../model/instance.js';
import { planSection } from '../search/search.js';

const noLuck: Luck = { stretch: () => 1, fails: () => false, interruption: () => 0 };

describe('a simulated round', () => {
  it('goes as planned when luck changes nothing, by order, strictly and by planning', () => {
    for (const family of ['mixed', 'alltest', 'limit2', 'warm', 'now', 'split'] as const) {
      const section = madeSection(family, 4, 12);
      const plan = planSection(section, { keepGoing: atMost(200) });
      if (plan === null) throw new Error('no plan');
      const strict = simulate(section, byOrder(section, plan.steps, { lookAhead: 0, strict: true }), noLuck);
      expect({ family, end: strict.end, missed: strict.missed }).toEqual({ family, end: plan.end, missed: 0 });
      expect(strict.work).toBe(plan.steps.reduce((sum, step) => sum + step.duration, 0));
      const planning = { rho: 2, firstWidth: 8, keepGoing: () => false };
      const anew = simulate(section, byPlanning(section, plan.steps, planning), noLuck);
      expect(anew.missed).toBe(0);
      expect(anew.end).toBeLessThanOrEqual(plan.end);
      expect(anew.readings).toBe(4);
    }
  });

  it('is what the careful person needs when a careful person does it', () => {
    for (const seed of [1, 2, 3, 4]) {
      const section = madeSection('mixed', 5, seed);
      const careful = byHand(section, 'careful');
      const sheet = careful.steps.filter((step) => step.is !== 'reading');
      const done = simulate(section, byOrder(section, sheet, { lookAhead: 1 }), noLuck);
      expect(done.end).toBe(careful.end);
    }
  });

  // Verifies: PLAN-R8, PLAN-R22
  it.each([
    ['every step', {}],
    ['every step and every way of the holder', { holders: 1, confirm: 1 }],
  ])('misses no reading when %s may take twice its time and planning goes on', (_, people) => {
    const section = Instance.parse({ ...madeSection('mixed', 4, 5), ...people });
    const plan = planSection(section, { keepGoing: atMost(100) });
    const planning = { rho: 2, firstWidth: 4, keepGoing: () => false };
    for (let seed = 0; seed < 40; seed += 1) {
      const luck = luckFrom(seed, section.unitSeconds);
      const done = simulate(section, byPlanning(section, plan?.steps ?? [], planning), luck);
      expect({ seed, missed: done.missed, stale: done.stale }).toEqual({ seed, missed: 0, stale: 0 });
    }
    const strict = byOrder(section, plan?.steps ?? [], { lookAhead: 0, strict: true });
    expect(simulate(section, strict, noLuck).end).toBe(plan?.end);
  });

  it('leaves the test out after the second failed draw and does the rest of the animal', () => {
    const section = sectionOf('Ada:draw5,chip2 Bo:oral2');
    const plan = planSection(section)?.steps ?? [];
    const fails: Luck = { ...noLuck, fails: () => true };
    const done = simulate(section, byPlanning(section, plan, { rho: 2, firstWidth: 4, keepGoing: () => false }), fails);
    expect(done).toMatchObject({ failedDraws: 2, testsLeftOut: 1, readings: 0, missed: 0 });
    expect(done.work).toBe(2 + 7 + 5 + 2 + 4);
  });

  it('takes an interruption at once when it cannot wait, and that can cost a reading', () => {
    const section = sectionOf('Ada:draw5');
    const plan = planSection(section)?.steps ?? [];
    const phone: Luck = { ...noLuck, interruption: (name) => (name.startsWith('start') ? 40 : 0) };
    const acting = () => byPlanning(section, plan, { rho: 2, firstWidth: 4, keepGoing: () => false });
    expect(simulate(section, acting(), phone, { canWait: false, attempts: 2 }).missed).toBe(1);
    const waits = simulate(section, acting(), phone, { canWait: true, attempts: 2 });
    expect(waits).toMatchObject({ missed: 0, interruptions: 1, end: 2 + 7 + 2 + 16 + 2 + 40 });
  });
});

it('stretches steps between 0.7 and 2 with a mean of 1.23', () => {
  const chance = chanceFrom(7);
  const all = Array.from({ length: 5000 }, () => triangular(chance));
  expect(Math.min(...all)).toBeGreaterThanOrEqual(0.7);
  expect(Math.max(...all)).toBeLessThanOrEqual(2);
  expect(all.reduce((sum, one) => sum + one, 0) / all.length).toBeCloseTo(3.7 / 3, 1);
});
