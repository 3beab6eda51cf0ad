import { describe, expect, it } from 'vitest';
import { sectionOf } from '../../../test/support/plan-section.js';
import { animalsMet } from '../../core/route-plan/model/instance.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { Round } from '../../core/route-plan/whole-round/round-shape.js';
import type { PlanAsk } from '../../log/plan/ask.js';
import { orderKey } from './in-order.js';
import { keepOrders } from './keep-orders.js';

function planOf(cats: string, teams = 1) {
  const round = Round.parse({
    teams,
    sections: [{ section: { ...sectionOf(cats), id: 'ward' }, don: 4, doff: 4, cartDisinfection: 6 }],
  });
  const plan = planRound(round, { keepGoing: () => false });
  if (plan === null) throw new Error('no plan');
  return { ask: { round, rho: 2 } as unknown as PlanAsk, plan };
}
const cats = 'Ada:draw5,chip2 Bo:injection2 | Cleo:draw6 Dot:oral2';
const wish = (...order: string[]) => new Map([[orderKey(0, 'ward'), order]]);
const ordersIn = (kept: ReturnType<typeof keepOrders>) =>
  kept.plan.teams.map((team) => team.visits.flatMap((visit) => animalsMet(visit.plan.steps)).join(' '));

describe('an order of people over a new plan (Verifies: RIBBON-R13)', () => {
  it('stays when the same animals are planned anew', () => {
    const { ask, plan } = planOf(cats);
    const kept = keepOrders(ask, plan, wish('Dot', 'Cleo', 'Bo', 'Ada'));
    expect(ordersIn(kept)).toEqual(['Dot Cleo Bo Ada']);
    expect(kept.lost).toEqual([]);
  });

  it('leaves out who is gone, puts who is new with the litter, and says both', () => {
    const { ask, plan } = planOf('Ada:draw5 Bo:injection2 Eve:oral2 | Cleo:draw6');
    const kept = keepOrders(ask, plan, wish('Dot', 'Cleo', 'Bo', 'Ada'));
    expect([...kept.orders.values()]).toEqual([['Cleo', 'Bo', 'Ada', 'Eve']]);
    // Ada's draw would run into the reading of Cleo's test, so Eve is taken in the meantime.
    expect(ordersIn(kept)).toEqual(['Cleo Bo Eve Ada']);
    expect(kept.lost.map((one) => one.say)).toEqual(['ribbon.order.gone', 'ribbon.order.waits', 'ribbon.order.added']);
    expect(kept.lost[0]?.with).toMatchObject({ animals: { list: ['Dot'] } });
    expect(kept.lost[1]?.with).toMatchObject({ animals: { list: ['Ada'] } });
    expect(kept.lost[2]?.with).toMatchObject({ animals: { list: ['Eve'] } });
  });

  it('keeps together who has become one litter', () => {
    const { ask, plan } = planOf('Ada:draw5 Cleo:draw6 | Bo:injection2 | Dot:oral2');
    const kept = keepOrders(ask, plan, wish('Ada', 'Bo', 'Cleo', 'Dot'));
    expect(ordersIn(kept)).toEqual(['Ada Cleo Bo Dot']);
    expect(kept.lost.map((one) => one.say)).toEqual(['ribbon.order.together']);
  });

  it('goes along with animals that another team has now', () => {
    const { ask, plan } = planOf(cats, 2);
    const kept = keepOrders(ask, plan, wish('Dot', 'Cleo', 'Bo', 'Ada'));
    expect([...ordersIn(kept)].sort()).toEqual(['Bo Ada', 'Dot Cleo']);
    expect(kept.lost).toEqual([]);
  });
});
