import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { drawn, entered, roundDay, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { kitCount } from '../../core/route-plan/model/instance.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { linesOfRound, prepareRound } from '../prepare/prepare.js';
import { lotUse } from '../stock/lots.js';
import { readySyringesLeft } from '../stock/ready-syringes.js';
import { bloodTogether } from '../views/blood-tests/shared-draw.js';
import { roundView } from '../views/round/round.js';
import { askFor, ribbonOf } from './ask.js';
import { liveRound } from './live.js';

type Log = ReturnType<typeof roundLog>;
const animals = ['kit-1', 'kit-2', 'kit-3'];
const both = ['felv-test', 'fiv-test', 'roundworm'];

const receive = (log: Log, id: string, of: object, pieces: number, expires = '2026-12-31', time = '08:30') =>
  log.one('lot-received', `lot:${id}`, { of, lotText: id, expires: day(expires), pieces } as never, when(time));
const ready = { is: 'supply', name: 'heparin syringes', readyToDraw: true };
const kit = (kitType: string) => ({ is: 'kit', kitType, conjugateLot: 'K27' });
/** The kittens came from a home where FIV is likely: both tests are due to them. */
function atRisk(): Log {
  const log = roundLog({});
  for (const id of animals)
    log.one(
      'observation-noted',
      `animal:${id}`,
      { code: 'fiv-at-risk', state: 'present', on: day(roundDay) },
      when('11:00'),
    );
  return log;
}

const choice = { startsAt: when('13:30'), endsAt: null, people: [2] as const, settings: usualSettings, ownTeam: [] };
/** What the planner is asked when these schedules are due to the three kittens. */
function asked(log: Log, settings = usualSettings) {
  const { world } = viewOf(log);
  const prepared = prepareRound(world, ['nursery' as never], when('13:00'));
  const ask = askFor(world, prepared, { ...choice, settings }, when('13:00'));
  if (ask === null) throw new Error('nothing is due');
  const tested = ask.round.sections.flatMap(({ section }) =>
    section.litters.flatMap((litter) => litter.animals.filter((animal) => animal.tested)),
  );
  return { ask, prepared, tested, tests: tested.reduce((sum, animal) => sum + kitCount(animal), 0) };
}
const live = (log: Log, time: string, more = {}) => {
  const { world, view } = viewOf(log);
  return liveRound(world, view, { now: when(time), ...more });
};
const named = (log: Log, time: string) =>
  live(log, time).ahead[0]?.steps.flatMap((step) =>
    step.is === 'gloves' ? [] : [`${step.animal}:${step.kind}${step.kit === undefined ? '' : `:${step.kit}`}`],
  ) ?? [];

describe('ready-prepared syringes. Verifies: PLAN-R14', () => {
  it('limit nobody while none was ever counted', () => {
    const log = roundLog({});
    const { ask, tested } = asked(log);
    expect(readySyringesLeft(viewOf(log).world, day(roundDay))).toBeNull();
    expect(tested.map((one) => one.id)).toEqual(animals);
    expect(ask.untested).toEqual([]);
  });

  it('let as many be tested as there are, and the rest is named with what it would need', () => {
    const log = roundLog({});
    receive(log, 'ready-1', ready, 2);
    const { ask, prepared, tested } = asked(log);
    expect(tested).toHaveLength(2);
    expect(ask.untested).toHaveLength(1);
    const left = { left: 2, wanted: 3, animals: { list: ask.untested }, more: 1 };
    expect(ask.problems).toContainEqual({ say: 'plan.short.syringes', with: left });
    // Whoever is not tested is still treated, and is weighed by itself instead of with the draw.
    const others = ask.round.sections.flatMap(({ section }) => section.litters.flatMap((one) => one.animals));
    expect(others.find((one) => one.id === ask.untested[0])?.ops.some((op) => op.kind === 'oral')).toBe(true);
    expect(prepared.problems).toContainEqual({ say: 'plan.short.ready', with: { left: 2, wanted: 3 } });
  });

  it('of which expired, withdrawn and used ones do not count; each try of a draw takes one', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    receive(log, 'old', ready, 9, '2026-02-28');
    receive(log, 'today', ready, 3);
    const left = () => readySyringesLeft(viewOf(log).world, day(roundDay));
    expect(left()).toBe(3);
    drawn(log, 1, '13:33', { usable: false, syringeLot: 'today' });
    drawn(log, 1, '13:35', { syringeLot: 'today' });
    expect(left()).toBe(1);
    expect(lotUse(viewOf(log).world).get('old' as never)?.used).toBe(0);
    log.one('lot-withdrawn', 'lot:today', { why: 'stored-wrong' }, when('13:40'));
    expect(left()).toBe(0);
  });

  it('of a draw whose box nobody wrote down are taken from none (Verifies: LOG-R70)', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    receive(log, 'first', ready, 1, '2026-03-02');
    receive(log, 'second', ready, 5, '2026-03-09');
    drawn(log, 1, '13:31', { usable: false });
    expect(readySyringesLeft(viewOf(log).world, day(roundDay))).toBe(6);
    drawn(log, 1, '13:32', { syringeLot: 'second' });
    const use = lotUse(viewOf(log).world);
    expect([use.get('first' as never)?.left, use.get('second' as never)?.left]).toEqual([1, 4]);
  });

  it('that are used up in the middle of a round leave the tests that are not drawn yet, and say so', () => {
    const log = roundLog({ 'kit-1': ['felv-test'], 'kit-2': ['felv-test', 'roundworm'], 'kit-3': ['felv-test'] });
    receive(log, 'ready-1', ready, 3);
    entered(log);
    expect(named(log, '13:30').filter((step) => step.endsWith(':draw'))).toHaveLength(3);
    drawn(log, 1, '13:32', { usable: false, syringeLot: 'ready-1' });
    drawn(log, 1, '13:34', { syringeLot: 'ready-1' });
    const plan = live(log, '13:35');
    const draws = plan.ahead[0]?.steps.filter((step) => step.kind === 'draw') ?? [];
    expect(draws).toHaveLength(1);
    const told = plan.changes.find((one) => one.say === 'plan.short.syringes');
    expect(told?.with).toMatchObject({ left: 1, wanted: 2, more: 1 });
    expect(named(log, '13:35')).toEqual(expect.arrayContaining(['kit-2:oral', 'kit-1:start-test:felv-test']));
  });
});

describe('tests left in the boxes, kind by kind. Verifies: PLAN-R14, PLAN-R16', () => {
  it('leave one test of an animal and run the other', () => {
    const log = atRisk();
    receive(log, 'felv', kit('felv-antigen-a'), 20);
    receive(log, 'fiv', kit('fiv-antibody-a'), 1);
    const { ask, tests } = asked(log);
    const fivWanted = ask.problems.find((one) => one.say === 'plan.short.kits');
    if (fivWanted === undefined) throw new Error('nothing is short');
    expect(fivWanted.with).toMatchObject({ kit: 'FIV antibody test A', left: 1 });
    expect(tests).toBe(3 + 1);
    expect(ask.untested).toEqual([]);
    expect(ask.kits.wanted).toBe(4);
  });
});

describe('two tests due on one animal. Verifies: PLAN-R16, ROUND-R21', () => {
  const log = (): Log => {
    const made = roundLog({ 'kit-1': both });
    entered(made);
    return made;
  };

  it('are one draw, two kits and one syringe in the plan and on the cart', () => {
    const { ask, prepared, tested } = asked(atRisk());
    expect(tested.map((one) => one.kits)).toEqual(animals.map(() => ['felv-test', 'fiv-test']));
    expect(tested.every((one) => one.ops.filter((op) => op.kind === 'draw').length === 1)).toBe(true);
    const test = ask.round.sections[0]?.section.test;
    expect(test).toMatchObject({ start: 2, read: 2, readLagMin: 16, readLagMax: 18, runningLimit: 2 });
    expect(ask.kits.wanted).toBe(6);
    expect(prepared.cart.kits.map((one) => [one.kit.id, one.tests, one.draws, one.readySyringes])).toEqual([
      ['felv-antigen-a', 3, 3, 4],
      ['fiv-antibody-a', 3, 0, 0],
    ]);
    expect(planRound(ask.round, { keepGoing: () => false })).not.toBeNull();
  });

  it('run at once though one at a time was set, which is said', () => {
    const { ask } = asked(atRisk(), { ...usualSettings, runningLimit: 1, sampleHoldMinutes: 0 });
    expect(ask.problems.map((one) => one.say)).toContain('plan.two-from-one-draw');
    expect(ask.round.sections[0]?.section.test.runningLimit).toBe(2);
    expect(planRound(ask.round, { keepGoing: () => false })).not.toBeNull();
  });

  it('share the blood on the round when it reaches for both', () => {
    const made = log();
    const line = (schedule: string) =>
      viewOf(made)
        .stop('kit-1')
        .lines.find((one) => one.schedule === schedule);
    expect(bloodTogether(viewOf(made).world, viewOf(made).stop('kit-1').lines, 'felv-test' as never)).toBe(200);
    drawn(made, 1, '13:33', { volume_ul: 200 });
    expect(line('fiv-test')).toMatchObject({ state: 'running', run: { run: 'run-1+fiv-test', startedAt: null } });
    expect(line('fiv-test')?.run?.drawnAt).toBe(when('13:33'));
    // Cold kits: the blood would wait too long, so kits are taken out first.
    receive(made, 'felv', kit('felv-antigen-a'), 5);
    receive(made, 'fiv', kit('fiv-antibody-a'), 5);
    for (const lot of ['felv', 'fiv']) made.one('kits-out-of-cold', `lot:${lot}`, { count: 2 }, when('13:00'));
    const steps = named(made, '13:34');
    expect(steps.filter((step) => step.includes('draw'))).toEqual([]);
    expect(steps.filter((step) => step.includes('start-test'))).toEqual([
      'kit-1:start-test:felv-test',
      'kit-1:start-test:fiv-test',
    ]);
    started(made, 1, '13:35');
    started(made, 1, '13:36', 'fiv-test');
    expect(viewOf(made).view.running.map((one) => one.schedule)).toEqual(['felv-test', 'fiv-test']);
    expect(line('fiv-test')?.run).toMatchObject({ drawnAt: when('13:33'), startedAt: when('13:36') });
    const readings = live(made, '13:37').ahead[0]?.steps.filter((step) => step.is === 'reading') ?? [];
    expect(readings.map((step) => step.kit)).toEqual(['felv-test', 'fiv-test']);
    // Started 300 and 360 s after coming in: windows from 780 and 840 s, open for two minutes, the reading inside them.
    for (const [i, opens] of [780, 840].entries()) {
      expect((readings[i]?.start ?? 0) * 30).toBeGreaterThanOrEqual(opens);
      expect((readings[i]?.start ?? 0) * 30).toBeLessThanOrEqual(opens + 60);
    }
  });

  it('ask for another draw when the blood reaches for one, with time for it in the plan', () => {
    const made = log();
    drawn(made, 1, '13:33');
    expect(
      viewOf(made)
        .stop('kit-1')
        .lines.find((one) => one.schedule === 'fiv-test')?.state,
    ).toBe('open');
    const steps = named(made, '13:34');
    expect(steps).toContain('kit-1:start-test:felv-test');
    expect(steps).toContain('kit-1:draw');
  });

  it('do not share blood that was not usable, nor the same blood twice', () => {
    const made = log();
    drawn(made, 1, '13:31', { volume_ul: 300, usable: false });
    drawn(made, 1, '13:33', { volume_ul: 100 });
    expect(
      viewOf(made)
        .stop('kit-1')
        .lines.find((one) => one.schedule === 'fiv-test')?.state,
    ).toBe('open');
  });

  it('keep the second one given up before its kit is started as given up', () => {
    const made = log();
    drawn(made, 1, '13:33', { volume_ul: 200 });
    const body = { run: 'run-1+fiv-test', why: 'other', round: roundId } as never;
    made.one('test-abandoned', 'animal:kit-1', body, when('13:36'));
    const { world } = viewOf(made);
    const view = roundView(world, roundId as never);
    const line = view?.stops.flatMap((one) => one.animals).flatMap((one) => one.lines);
    expect(line?.find((one) => one.schedule === 'fiv-test')).toMatchObject({ state: 'done', abnormal: true });
  });
});

describe('weighing first. Verifies: PLAN-R20', () => {
  it('has time in the plan and a line on the round, also when the weighing itself is not due', () => {
    const log = roundLog({});
    const { world } = viewOf(log);
    const prepared = prepareRound(world, ['nursery' as never], when('13:00'));
    const [stop] = prepared.sections;
    const [first] = stop?.animals ?? [];
    if (stop === undefined || first === undefined) throw new Error('nobody is here');
    const only = (due: typeof first.due, weighFirst: boolean) => ({
      ...prepared,
      sections: [{ section: stop.section, animals: [{ ...first, due, weighFirst }] }],
    });
    const worm = first.due.filter((item) => item.schedule === 'roundworm');
    const kinds = (due: typeof first.due, weighFirst: boolean) =>
      askFor(world, only(due, weighFirst), choice, when('13:00'))?.round.sections.flatMap(({ section }) =>
        section.litters.flatMap((litter) => litter.animals.flatMap((one) => one.ops.map((op) => op.kind))),
      );
    expect(kinds(worm, false)).toEqual(['oral']);
    expect(kinds(worm, true)).toEqual(['weigh', 'oral']);
    // Nothing is due but it waits for a weight: it is met and weighed.
    expect(kinds([], true)).toEqual(['weigh']);
    expect(kinds([], false)).toBeUndefined();
    expect(linesOfRound(world, only([], true))).toEqual([{ animal: first.animal.id, schedules: ['weighing'] }]);
    expect(linesOfRound(world, only([], false))).toEqual([]);
    expect(linesOfRound(world, only(worm, true))[0]?.schedules).toEqual(['weighing', 'roundworm']);
  });
});

describe('an order that a person asked for. Verifies: PLAN-R19', () => {
  it('stays with the round and is kept while it runs', () => {
    const log = roundLog({ 'kit-1': both, 'kit-2': both, 'kit-3': both });
    const { view } = viewOf(log);
    const { ask } = asked(log);
    const plan = planRound(ask.round, { keepGoing: () => false });
    if (plan === null) throw new Error('no plan');
    const wished = ['kit-3', 'kit-1', 'kit-2'];
    const ribbon = ribbonOf(ask.round, plan, 0, usualSettings, () => wished);
    expect(ribbon.visits[0]?.wished).toEqual(wished);
    const again = roundLog({});
    again.one('round-planned', `round:${roundId}`, { ...view.facts.plan, ribbon } as never, when('13:00'));
    again.one('round-begun', `round:${roundId}`, {}, when('13:30'));
    entered(again);
    const met = [
      ...new Set(live(again, '13:31').ahead[0]?.steps.flatMap((step) => (step.is === 'handling' ? [step.animal] : []))),
    ];
    expect(met).toEqual(wished);
  });
});
