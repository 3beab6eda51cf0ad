import { describe, expect, it } from 'vitest';
import { sectionOf } from '../../../test/support/plan-section.js';
import { animalsMet } from '../../core/route-plan/model/instance.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { Round } from '../../core/route-plan/whole-round/round-shape.js';
import type { PlanAsk } from '../../log/plan/ask.js';
import { orderKey, withOrders, withWish } from './in-order.js';

const stop = (cats: string, id: string) => ({
  section: { ...sectionOf(cats), id },
  don: 4,
  doff: 4,
  cartDisinfection: 6,
});
const later = sectionOf('Eve:oral2 Fin:oral1').litters.map((litter) => ({ ...litter, id: `sick ${litter.id}` }));
const round = Round.parse({
  sections: [
    stop('Ada:draw5,chip2,oral1 Bo:injection2 | Cleo:draw6,oral2 Dot:oral2', 'clean'),
    {
      ...stop('Eve:oral2 Fin:oral1', 'sick'),
      section: { ...sectionOf('Eve:oral2 Fin:oral1'), id: 'sick', litters: later },
    },
  ],
});
const ask = { round, rho: 2 } as unknown as PlanAsk;
const plan = planRound(round, { keepGoing: () => false });

describe('an order that people wish for (Verifies: RIBBON-R8)', () => {
  it('is followed when it breaks no rule, and what comes later moves along', () => {
    if (plan === null) throw new Error('no plan');
    const orders = new Map([[orderKey(0, 'clean'), ['Dot', 'Cleo', 'Bo', 'Ada']]]);
    const made = withOrders(ask, plan, orders);
    if (!made.ok) throw new Error(made.why.say);
    const [clean, sick] = made.value.teams[0]?.visits ?? [];
    expect(clean === undefined ? [] : animalsMet(clean.plan.steps)).toEqual(['Dot', 'Cleo', 'Bo', 'Ada']);
    expect(sick?.start).toBe(clean?.end);
    expect(made.value.end).toBe(sick?.end);
    expect(made.value.end).toBeGreaterThanOrEqual(plan.end);
  });

  it('is refused with the rule it breaks when it parts a litter', () => {
    if (plan === null) throw new Error('no plan');
    const made = withOrders(ask, plan, new Map([[orderKey(0, 'clean'), ['Ada', 'Cleo', 'Bo', 'Dot']]]));
    expect(made.ok ? 'followed' : made.why.say).toBe('plan.order.litter-parted');
  });

  it('is refused when it would only have to wait for a reading, so that a hand is never moved in silence', () => {
    const one = Round.parse({ sections: [stop('Cleo:draw6 | Bo:injection2 Eve:oral2 Ada:draw5', 'clean')] });
    const asked = { round: one, rho: 2 } as unknown as PlanAsk;
    const best = planRound(one, { keepGoing: () => false });
    if (best === null) throw new Error('no plan');
    const first = new Map([[orderKey(0, 'clean'), ['Cleo', 'Bo', 'Eve', 'Ada']]]);
    const order = ['Cleo', 'Bo', 'Ada', 'Eve'];
    const made = withWish(asked, best, first, { team: 0, section: 'clean', order });
    expect(made.ok ? 'followed' : made.why).toMatchObject({ say: 'ribbon.order.would-wait', with: { animal: 'Ada' } });
  });
});
