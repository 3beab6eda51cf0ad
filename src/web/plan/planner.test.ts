import { describe, expect, it } from 'vitest';
import { sectionOf } from '../../../test/support/plan-section.js';
import { Round } from '../../core/route-plan/whole-round/round-shape.js';
import type { PlanAnswer } from './messages.js';
import { type MakeWorker, makePlanner } from './planner.js';
import { workOut } from './work.js';

const round = Round.parse({
  sections: [
    {
      section: { ...sectionOf('Ada:draw5,chip2,oral1 Bo:injection2 | Cleo:draw6,oral2 Dot:oral2'), id: 'ward' },
      don: 4,
      doff: 4,
      cartDisinfection: 6,
    },
  ],
});
const job = { round, rho: 2, budget_ms: 200 };

/** A worker as the page sees it; what it is asked is answered by hand. */
function standIn() {
  const made: { ended: boolean; asked: unknown; onmessage: Worker['onmessage']; onerror: Worker['onerror'] }[] = [];
  const make: MakeWorker = () => {
    const one = {
      ended: false,
      asked: null as unknown,
      onmessage: null as Worker['onmessage'],
      onerror: null as Worker['onerror'],
      postMessage: (asked: unknown) => {
        one.asked = asked;
      },
      terminate: () => {
        one.ended = true;
      },
    };
    made.push(one);
    return one;
  };
  const answer = (at: number, told: PlanAnswer): void => {
    const worker = made[at];
    worker?.onmessage?.call(worker as never, { data: told } as MessageEvent);
  };
  return { made, make, answer };
}

const plan = (number: number): PlanAnswer => ({ is: 'plan', job: number, best: true, plan: null, left: [] });

describe('asking for a plan (Verifies: RIBBON-R9)', () => {
  it('ends the worker of the question before, and takes no answer of it any more', () => {
    const { made, make, answer } = standIn();
    const planner = makePlanner(make);
    const told: PlanAnswer[] = [];
    planner.ask(job, (one) => told.push(one));
    planner.ask(job, (one) => told.push(one));
    const numbers = made.map((one) => (one.asked as { job: number }).job);
    expect(made.map((one) => one.ended)).toEqual([true, false]);
    answer(0, plan(numbers[0] ?? 0));
    expect(told).toEqual([]);
    answer(1, plan(numbers[1] ?? 0));
    expect(told).toHaveLength(1);
    planner.cancel();
    answer(1, plan(numbers[1] ?? 0));
    expect(told).toHaveLength(1);
    expect(made[1]?.ended).toBe(true);
  });

  it.each([
    [
      'cannot be made',
      (): ReturnType<MakeWorker> => {
        throw new Error('no workers here');
      },
      false,
    ],
    ['cannot be loaded', standIn().make, true],
  ])('works it out on the page when a worker %s', async (_, make, fails) => {
    const made: ReturnType<MakeWorker>[] = [];
    const planner = makePlanner(() => {
      const one = make();
      made.push(one);
      return one;
    });
    const told = await new Promise<PlanAnswer[]>((resolve) => {
      const all: PlanAnswer[] = [];
      planner.ask(job, (one) => {
        all.push(one);
        if (one.is === 'advice') resolve(all);
      });
      const [worker] = made;
      if (fails && worker !== undefined) worker.onerror?.call(worker as never, {} as ErrorEvent);
    });
    expect(told.map((one) => one.is)).toEqual(['plan', 'plan', 'advice']);
  });

  it('gives a sound plan first, and a best one that is never longer', () => {
    const told: PlanAnswer[] = [];
    workOut({ job: 1, ...job }, ticking(), (one) => told.push(one));
    const [first, best, advice] = told;
    if (first?.is !== 'plan' || best?.is !== 'plan' || advice?.is !== 'advice') throw new Error('other answers');
    expect(best.plan?.end).toBeLessThanOrEqual(first.plan?.end ?? 0);
    expect(best.best).toBe(true);
    expect(advice.alternatives.find((one) => one.id === 'team')?.by).toBeLessThan(0);
    expect(advice.alternatives.map((one) => one.id)).toEqual(expect.arrayContaining(['holder', 'put-back-yes']));
  });

  it('says who is left when the shift ends first, and how many teams it needs', () => {
    const told: PlanAnswer[] = [];
    workOut({ job: 1, ...job, round: { ...round, shift: 40 } }, ticking(), (one) => told.push(one));
    const best = told.findLast((one) => one.is === 'plan');
    expect(best?.is === 'plan' ? best.left.length : 0).toBeGreaterThan(0);
    const advice = told.find((one) => one.is === 'advice');
    expect(advice).toHaveProperty('teamsNeeded');
  });
});

/** A clock that goes on by a millisecond each time it is looked at: the budget is then so many looks on any machine. */
function ticking(): () => number {
  let ms = 0;
  return () => {
    ms += 1;
    return ms;
  };
}
