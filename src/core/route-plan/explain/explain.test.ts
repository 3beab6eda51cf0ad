import { describe, expect, it } from 'vitest';
import { madeSection } from '../../../../test/support/plan-families.js';
import { sectionOf } from '../../../../test/support/plan-section.js';
import { usuallyTaking } from '../../../../test/support/usually-taking.js';
import { planFromJson } from '../calculate.js';
import { durationOf, inUnits } from '../model/durations.js';
import { planInOrder } from '../search/in-order.js';
import { planSection } from '../search/search.js';
import { explainPlan, percentAbove } from './explain.js';
import { savings } from './savings.js';

const keys = (sentences: readonly { readonly say: string }[]): string[] => sentences.map((one) => one.say);

describe('the explanation of a plan', () => {
  it('says that the work binds, that nothing is shorter, and who is kept for the last test. Verifies: PLAN-R15', () => {
    const section = sectionOf('Ada:chip3,oral2 Bo:draw5,chip2 | Cleo:injection2,oral2 Dot:chip3,oral2 Eve:oral2');
    const plan = planSection(section, { rho: 1 });
    if (plan === null) throw new Error('no plan');
    const told = explainPlan(section, plan);
    expect(keys(told).slice(0, 3)).toEqual(['plan.takes', 'plan.shortest', 'plan.binds.work']);
    const tested = plan.steps.filter((step) => step.is === 'start-test').map((step) => step.animal);
    expect(tested).toEqual(['Bo']);
    expect(keys(told)).toContain('plan.why.others-last');
    expect(keys(told).filter((key) => key.startsWith('plan.ends.'))).toHaveLength(1);
    expect(told[0]?.with).toEqual({ minutes: plan.end / 2, work: plan.bounds.work / 2 });
  });

  it('says where the team waits when one test is all there is. Verifies: PLAN-R15', () => {
    const section = sectionOf('Ada:draw5');
    const plan = planSection(section);
    if (plan === null) throw new Error('no plan');
    const told = explainPlan(section, plan);
    expect(told).toContainEqual({ say: 'plan.waits.reading', with: { minutes: 8, animal: 'Ada' } });
    expect(told).toContainEqual({ say: 'plan.ends.reading', with: { animal: 'Ada' } });
    expect(told).toContainEqual({ say: 'plan.safe', with: { times: 2 } });
    expect(keys(told)).toContain('plan.binds.tail');
  });

  it('never claims to be nearer to the best possible than it is. Verifies: PLAN-R15', () => {
    const plan = planSection(madeSection('alltest', 6, 42));
    if (plan === null) throw new Error('no plan');
    expect(plan.end).toBeLessThanOrEqual(plan.bounds.best * (1 + percentAbove(plan) / 100));
  });

  it('says what another team, another holder or another setting would save. Verifies: PLAN-R11, PLAN-R15', () => {
    const section = { ...madeSection('limit2', 4, 9), kitReadyAt: [40, 40, 40, 40] };
    const plan = planSection(section);
    if (plan === null) throw new Error('no plan');
    const told = savings(section, plan);
    expect(told.map((one) => one.what)).toEqual(['team', 'apart', 'holder', 'limit', 'put-back', 'kits', 'safety']);
    expect(told.find((one) => one.what === 'team')?.saves).toBeGreaterThan(plan.end * 0.3);
    const saved = (what: string): number => told.find((one) => one.what === what)?.saves ?? 0;
    expect(saved('apart') + saved('holder')).toBeGreaterThan(0);
    for (const one of told) expect(one.saves).toBeGreaterThanOrEqual(0);
  });
});

describe('an order that somebody wants', () => {
  const section = sectionOf('Ada:draw5,oral1 Bo:oral2 | Cleo:oral1 Dot:chip2');
  it('is followed, with tests still read in their window. Verifies: PLAN-R1', () => {
    const made = planInOrder(section, ['Dot', 'Cleo', 'Bo', 'Ada']);
    if (!made.ok) throw new Error(made.why.say);
    const order = made.value.steps.filter((step) => step.is === 'handling').map((step) => step.animal);
    expect([...new Set(order)]).toEqual(['Dot', 'Cleo', 'Bo', 'Ada']);
    expect(made.value.end).toBeGreaterThanOrEqual(planSection(section)?.end ?? 0);
  });

  it('gets the animals that it does not name last', () => {
    const made = planInOrder(section, ['Dot']);
    const steps = made.ok ? made.value.steps : [];
    expect([...new Set(steps.filter((step) => step.is === 'handling').map((step) => step.animal))].slice(0, 2)).toEqual(
      ['Dot', 'Cleo'],
    );
  });

  it('is refused by name when it parts a litter, names somebody twice or nobody here. Verifies: PLAN-R1', () => {
    const why = (order: string[]): unknown => {
      const made = planInOrder(section, order);
      return made.ok ? null : made.why;
    };
    expect(why(['Ada', 'Cleo', 'Bo'])).toEqual({
      say: 'plan.order.litter-parted',
      with: { animal: 'Bo', litter: 'L1', other: 'Cleo' },
    });
    expect(why(['Ada', 'Ada'])).toMatchObject({ say: 'plan.order.twice' });
    expect(why(['Zoe'])).toMatchObject({ say: 'plan.order.unknown' });
  });
});

it('takes the median of own times from the twentieth on. Verifies: PLAN-R13', () => {
  const times = [...Array(18).fill(100), 300] as number[];
  expect(durationOf('draw', times)).toEqual({ seconds: 150, from: 'assumed', recorded: 19, stretch: 2 });
  expect(durationOf('draw', [...times, 120])).toMatchObject({ seconds: 100, from: 'own', recorded: 20 });
  expect(durationOf('draw', [...times, Number.NaN, 0])).toMatchObject({ from: 'assumed', recorded: 19 });
  expect(durationOf('brushing', [])).toMatchObject({ seconds: 45, from: 'assumed' });
  const spread = durationOf(
    'oral',
    Array.from({ length: 21 }, (_, i) => 40 + i),
  );
  expect(spread).toMatchObject({ seconds: 50, stretch: 59 / 50 });
  expect([inUnits(44, 30), inUnits(10, 30), inUnits(45, 30)]).toEqual([1, 1, 2]);
});

it('makes steps longer and leaves the clocks of tests as they are', () => {
  const section = sectionOf('Ada:draw5,oral1', { kitReadyAt: [7] });
  const usual = usuallyTaking(section, 1.2, 10);
  expect(usual).toMatchObject({ unitSeconds: 3, gloveChange: 24, fetch: 24, kitReadyAt: [70] });
  expect(usual.test).toMatchObject({ start: 24, read: 20, readLagMin: 160, readLagMax: 180, sampleHoldMax: 80 });
  expect(usual.litters[0]?.animals[0]?.ops.map((op) => op.dur)).toEqual([60, 12]);
});

describe('a plan from JSON', () => {
  const section = sectionOf('Ada:draw5,chip2 Bo:oral2');
  const output = (input: unknown) => {
    const made = planFromJson(JSON.parse(JSON.stringify(input)));
    if (!made.ok) throw new Error(JSON.stringify(made.why));
    return made.value;
  };

  it('comes with its bound and its reasons, for a bare section and for one with a state', () => {
    const bare = output(section);
    expect(bare).toMatchObject({ of: 'section', left: [] });
    expect(bare.bound).toBeLessThanOrEqual(bare.end);
    expect(bare.visits[0]?.steps[0]).toEqual({ op: 'L1:glove-change', start: 0, duration: 2, people: 1 });
    expect(keys(bare.trace)).toContain('plan.takes');
    const going = output({ section, rho: 1, state: { now: 9, openLitter: 'L1', animals: [{ id: 'Bo', done: 1 }] } });
    expect(going.visits[0]?.steps.some((step) => step.op === 'Bo:oral')).toBe(false);
  });

  it('takes a whole round with the end of the shift', () => {
    const stop = { section, don: 4, doff: 4, cartDisinfection: 6 };
    const round = output({ sections: [stop], teams: 1, shift: 30 });
    expect(round.of).toBe('round');
    expect(round.end).toBeLessThanOrEqual(30);
    expect(round.left.map((one) => one.animal)).toEqual(['Ada']);
    expect(keys(round.trace)).toContain('plan.left.due');
    expect(planFromJson({ sections: [stop], shift: 3 })).toMatchObject({
      ok: false,
      why: { say: 'plan.shift-too-short' },
    });
  });

  it('is refused with the reason when people or teams are lacking. Verifies: PLAN-R21, PLAN-R23', () => {
    const stop = { section, don: 4, doff: 4, cartDisinfection: 6 };
    const other = {
      ...sectionOf('Cleo:oral2'),
      id: 'other',
      litters: [{ ...sectionOf('Cleo:oral2').litters[0], id: 'L9' }],
    };
    const why = { say: 'plan.needs-two', with: { animal: 'Ada' } };
    expect(planFromJson({ sections: [stop], people: [1] })).toMatchObject({ ok: false, why });
    expect(
      planFromJson({
        sections: [
          { ...stop, ownTeam: true },
          { ...stop, section: other },
        ],
      }),
    ).toMatchObject({
      ok: false,
      why: { say: 'plan.own-team', with: { count: 2 } },
    });
    const single = { ...stop, section: sectionOf('Bo:oral2') };
    expect(output({ sections: [single], people: [1] }).end).toBe(8 + 2 + 4 + 6);
  });

  it.each([
    ['nothing', null, 'the whole'],
    ['text', 'a plan', 'the whole'],
    ['half a unit', { ...section, gloveChange: 1.5 }, 'gloveChange'],
    [
      'a draw that is not first',
      sectionBroken([
        { kind: 'oral', dur: 1 },
        { kind: 'draw', dur: 5 },
      ]),
      'litters 0 animals 0 ops',
    ],
    [
      'the same animal twice',
      { ...section, litters: [...section.litters, { id: 'L2', animals: section.litters[0]?.animals }] },
      'litters 1 animals 0 id',
    ],
    ['too few kits', { ...section, kitReadyAt: [] }, 'kitReadyAt'],
    ['a closing before the opening', { ...section, test: { ...section.test, readLagMax: 3 } }, 'test'],
    ['more making sure than fetching', { ...section, holders: 1, confirm: 9 }, 'the whole'],
    ['an unknown field', { ...section, colour: 'blue' }, 'the whole'],
    ['a wrong factor', { section, rho: 0.5 }, 'rho'],
    ['a round without sections', { sections: [] }, 'sections'],
  ])('says what is wrong with %s', (_, input, where) => {
    expect(planFromJson(input)).toMatchObject({ ok: false, why: { say: 'plan.input', with: { where } } });
  });

  it('refuses a state of other animals', () => {
    const state = { now: 0, animals: [{ id: 'Zoe' }] };
    expect(planFromJson({ section, state })).toMatchObject({ ok: false, why: { say: 'plan.input.state' } });
  });

  function sectionBroken(ops: unknown): unknown {
    return { ...section, litters: [{ id: 'L1', animals: [{ id: 'Ada', tested: true, ops }] }] };
  }
});
