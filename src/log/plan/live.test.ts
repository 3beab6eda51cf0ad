import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { drawn, entered, roundDay, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import { planRound } from '../../core/route-plan/whole-round/round.js';
import { nextAnimal } from '../bedside/next-animal.js';
import { prepareRound } from '../prepare/prepare.js';
import { draft } from '../record.js';
import { askFor, orderOf, ribbonOf } from './ask.js';
import { lengthOf, timedIn } from './durations.js';
import { happenedOn } from './happened.js';
import { liveRound } from './live.js';
import { operationsOf } from './operations.js';

const lines = {
  'kit-1': ['felv-test', 'roundworm'],
  'kit-2': ['roundworm'],
  'kit-3': ['felv-test', 'roundworm'],
};
type Log = ReturnType<typeof roundLog>;
const omitted = (log: Log, kit: number, schedule: string, reason: 'animal-not-found' | 'draw-failed', time: string) =>
  log.one(
    'treatment-not-given',
    `animal:kit-${kit}`,
    { schedule: schedule as never, reason, round: roundId as never },
    when(time),
  );

const live = (log: Log, time: string, more = {}) => {
  const { world, view } = viewOf(log);
  return liveRound(world, view, { now: when(time), ...more });
};
/** Whether something of this animal is open that needs two. */
const twoIn = (log: Log, animal: string): boolean =>
  viewOf(log)
    .stop(animal)
    .lines.some((line) => line.state === 'open' && (line.action === 'test' || line.action === 'chip'));
const kinds = (plan: ReturnType<typeof live>) =>
  plan.ahead[0]?.steps.filter((step) => step.is !== 'gloves').map((step) => `${step.animal}:${step.kind}`);

/** The round with a plan laid down with it. */
function plannedLog(): Log {
  const log = roundLog(lines);
  const { world, view } = viewOf(log);
  const now = when('13:00');
  const prepared = { ...prepareRound(world, ['nursery' as never], now), on: day(roundDay) };
  const ask = askFor(
    world,
    prepared,
    { startsAt: when('13:30'), endsAt: null, people: [2] as const, settings: usualSettings, ownTeam: [] },
    now,
  );
  const plan = ask === null ? null : planRound(ask.round, { keepGoing: () => false });
  if (ask === null || plan === null) throw new Error('nothing is due');
  const ribbon = ribbonOf(ask.round, plan, 0, usualSettings);
  const body = { ...view.facts.plan, ribbon };
  const again = roundLog({});
  again.add([draft('round-planned', `round:${roundId}`, body, when('13:00'))], 'sol');
  return again;
}

describe('what people have done beside the plan (Verifies: PLAN-R25)', () => {
  const T = ['felv-test'];

  it('is planned to its end though more tests run than were meant to: blood in a kit waits for none', () => {
    const log = roundLog({ 'kit-1': T, 'kit-2': T, 'kit-3': T });
    entered(log);
    for (const [kitten, time] of [
      [1, '13:32'],
      [2, '13:35'],
      [3, '13:38'],
    ] as const) {
      drawn(log, kitten, time);
      started(log, kitten, time);
    }
    const plan = live(log, '13:38');
    expect(plan.changes.map(({ say }) => say)).toEqual([]);
    expect(plan.ahead[0]?.steps.map(({ is, animal }) => `${is} ${animal}`)).toEqual([
      'reading kit-1',
      'reading kit-2',
      'reading kit-3',
    ]);
  });

  it('names who was left open in a section that people have left, and no end earlier than planned', () => {
    const log = plannedLog();
    log.add([draft('round-begun', `round:${roundId}`, {}, when('13:30'))]);
    entered(log);
    omitted(log, 1, 'felv-test', 'draw-failed', '13:35');
    omitted(log, 1, 'roundworm', 'draw-failed', '13:36');
    log.one('section-left', `round:${roundId}`, { section: 'nursery', cleaned: [] } as never, when('13:40'));
    const plan = live(log, '13:41');
    expect(plan.leftOpen).toEqual([{ section: 'nursery', animals: ['kit-2', 'kit-3'] }]);
    expect(plan.changes).toContainEqual({
      say: 'ribbon.left-open',
      with: { section: 'Nursery', count: 2, animals: { list: ['kit-2', 'kit-3'] } },
    });
    expect(plan.later_s).toBeNull();
  });
});

describe('the plan of a round from its records (Verifies: RIBBON-R1, RIBBON-R3)', () => {
  it('has a draw first, and what is seen or weighed before it counts into the draw', () => {
    const line = (schedule: string, action: string, kind: string) => ({ schedule, action, kind }) as never;
    const ops = operationsOf([
      line('weighing', 'weigh', 'weigh'),
      line('felv-test', 'test', 'draw'),
      line('chip', 'chip', 'chip'),
    ]);
    expect(ops.map((op) => op.kind)).toEqual(['draw', 'chip']);
    expect(ops[0]?.lines).toHaveLength(2);
    expect(
      operationsOf([line('weighing', 'weigh', 'weigh'), line('chip', 'chip', 'chip')]).map((op) => op.kind),
    ).toEqual(['weigh', 'chip']);
  });

  it('takes the read window of the kit, the reading inside it', () => {
    const { world } = viewOf(roundLog(lines));
    const prepared = prepareRound(world, ['nursery' as never], when('13:00'));
    const ask = askFor(
      world,
      prepared,
      { startsAt: when('13:00'), endsAt: null, people: [2] as const, settings: usualSettings, ownTeam: [] },
      when('13:00'),
    );
    const test = ask?.round.sections[0]?.section.test;
    // 480 to 600 s of the starter formulary in units of 30 s, the reading of a minute over before the end.
    expect(test).toMatchObject({ readLagMin: 16, readLagMax: 18, read: 2, runningLimit: 2, sampleHoldMax: 8 });
    expect(ask?.rho).toBe(2);
  });

  it('says by when tests have to leave the cold, and knows those that are out (Verifies: RIBBON-R4)', () => {
    const choice = {
      startsAt: when('13:30'),
      endsAt: null,
      people: [2] as const,
      settings: usualSettings,
      ownTeam: [],
    };
    const log = roundLog(lines);
    const ask = (now: string) => {
      const { world } = viewOf(log);
      return askFor(world, prepareRound(world, ['nursery' as never], now), choice, now);
    };
    const wanted = ask(when('12:00'))?.kits.wanted ?? 0;
    expect(wanted).toBeGreaterThan(0);
    // Half an hour of warming: out at 13:00 is warm at 13:30; at 13:20 it is too late for that, so now.
    expect(ask(when('12:00'))).toMatchObject({ kits: { out: 0, takeOut_s: -1800 }, round: { kitWarmUp: 0 } });
    expect(ask(when('13:20'))).toMatchObject({ kits: { takeOut_s: -600 }, round: { kitWarmUp: 40 } });
    const of = { is: 'kit', kitType: 'felv-antigen-a', conjugateLot: 'K27' };
    log.one(
      'lot-received',
      'lot:kit-lot',
      { of, lotText: 'K27', expires: day('2026-12-31'), pieces: 20 } as never,
      when('08:30'),
    );
    log.one('kits-out-of-cold', 'lot:kit-lot', { lot: 'kit-lot', count: wanted } as never, when('13:10'));
    expect(ask(when('13:20'))).toMatchObject({ kits: { out: wanted, takeOut_s: null }, round: { kitWarmUp: 20 } });
  });
});

describe('replanning from what has happened (Verifies: RIBBON-R6)', () => {
  it('plans what is open, and leaves what is done', () => {
    const log = roundLog(lines);
    entered(log);
    const before = kinds(live(log, '13:30'));
    expect(before).toEqual(expect.arrayContaining(['kit-1:draw', 'kit-1:start-test', 'kit-1:read', 'kit-2:oral']));
    log.one(
      'treatment-given',
      'animal:kit-2',
      {
        schedule: 'roundworm',
        product: 'pyrantel-50',
        lot: 'pyr-1',
        volume_ul: 120,
        route: 'by mouth',
        round: roundId,
      } as never,
      when('13:34'),
    );
    expect(kinds(live(log, '13:35'))).not.toContain('kit-2:oral');
  });

  it('keeps the clock of a running test and reads it in its window', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 1, '13:33');
    started(log, 1, '13:35');
    const plan = live(log, '13:36');
    const reading = plan.ahead[0]?.steps.find((step) => step.is === 'reading' && step.animal === 'kit-1');
    // Started 300 s after coming in: the window is 780 to 900 s after it, and the reading takes 60 s of that.
    const start_s = (reading?.start ?? 0) * 30;
    expect(start_s).toBeGreaterThanOrEqual(780);
    expect(start_s).toBeLessThanOrEqual(840);
    expect(kinds(plan)).not.toContain('kit-1:draw');
  });

  it('names a test whose window has passed', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 1, '13:33');
    started(log, 1, '13:35');
    const plan = live(log, '13:50');
    expect(plan.lost).toEqual(['kit-1']);
    expect(kinds(plan)).not.toContain('kit-1:read');
  });

  it('leaves out the test after a draw that failed for good, and the animal that was not found', () => {
    const log = plannedLog();
    log.one('round-begun', `round:${roundId}`, {}, when('13:30'));
    entered(log);
    drawn(log, 1, '13:34', { usable: false });
    omitted(log, 1, 'felv-test', 'draw-failed', '13:35');
    for (const schedule of lines['kit-3']) omitted(log, 3, schedule, 'animal-not-found', '13:36');
    const { view } = viewOf(log);
    const planned = view.facts.plan.ribbon?.visits[0]?.steps.map((step) => step.animal) ?? [];
    expect(planned).toEqual(expect.arrayContaining(['kit-1', 'kit-3']));
    const plan = live(log, '13:37');
    expect(kinds(plan)).toContain('kit-1:oral');
    expect(kinds(plan)?.filter((step) => step.startsWith('kit-3') || step === 'kit-1:draw')).toEqual([]);
    expect(plan.changes).toContainEqual({ say: 'plan.change.test-left-out', with: { animal: 'kit-1' } });
    expect(plan.changes).toContainEqual({ say: 'plan.change.left-out', with: { animal: 'kit-3' } });
    expect(plan.later_s).not.toBeNull();
  });

  it('keeps what needs two people until the partner is back', () => {
    const log = roundLog(lines);
    entered(log);
    const draws = live(log, '13:30', { aloneFor_s: 600 }).ahead[0]?.steps.filter((step) => step.kind === 'draw') ?? [];
    expect(draws.length).toBeGreaterThan(0);
    for (const step of draws) expect(step.start * 30).toBeGreaterThanOrEqual(600);
  });

  it('plans nothing that needs two for who works alone, and says for whom it waits. Verifies: PLAN-R21', () => {
    const log = plannedLog();
    log.one('round-begun', `round:${roundId}`, {}, when('13:30'));
    entered(log);
    const twoOf = () => live(log, '13:31').ahead[0]?.steps.filter((step) => step.people === 2) ?? [];
    expect(twoOf().map((step) => step.animal)).toEqual(expect.arrayContaining(['kit-1', 'kit-3']));
    log.one('team-changed', `round:${roundId}`, { treater: 'ines', holder: null } as never, when('13:31'));
    const alone = live(log, '13:31');
    expect(twoOf()).toEqual([]);
    expect(kinds(alone)).toEqual(expect.arrayContaining(['kit-1:oral', 'kit-2:oral', 'kit-3:oral']));
    expect(kinds(alone)?.filter((step) => step.includes('test') || step.includes('read'))).toEqual([]);
    expect(alone.ahead[0]?.steps.every((step) => step.fetchFrom === undefined)).toBe(true);
    const told = alone.changes.find((one) => one.say === 'plan.alone');
    expect(told?.with).toEqual({ animals: { list: ['kit-1', 'kit-2', 'kit-3'].filter((one) => twoIn(log, one)) } });
    // Whoever has only a draw or a chip open is not sent for.
    const others = () => {
      const [stop] = viewOf(log).view.stops;
      return stop === undefined ? null : nextAnimal(viewOf(log).view, stop)?.lines.map((line) => line.schedule);
    };
    for (const kit of [1, 2, 3]) omitted(log, kit, 'roundworm', 'animal-not-found', '13:32');
    expect(others() ?? []).toEqual([]);
    log.one('team-changed', `round:${roundId}`, { treater: 'ines', holder: 'sol' } as never, when('13:32'));
    expect(others()).toContain('felv-test');
    log.one('team-changed', `round:${roundId}`, { treater: 'ines', holder: null } as never, when('13:32'));
    // Blood that was drawn before goes on: starting and reading a test need one.
    drawn(log, 1, '13:33');
    expect(kinds(live(log, '13:34'))).toEqual(expect.arrayContaining(['kit-1:start-test', 'kit-1:read']));
  });

  it('has the holder on his way since the last animal was done. Verifies: PLAN-R22', () => {
    const log = plannedLog();
    log.one('round-begun', `round:${roundId}`, {}, when('13:30'));
    entered(log);
    drawn(log, 1, '13:33');
    log.one(
      'treatment-given',
      'animal:kit-1',
      {
        schedule: 'roundworm',
        product: 'pyrantel-50',
        volume_ul: 120,
        route: 'by mouth',
        lot: null,
        round: roundId,
      } as never,
      when('13:34'),
    );
    started(log, 1, '13:36');
    const next = live(log, '13:36').ahead[0]?.steps.find((step) => step.is === 'handling');
    // In units of 30 s from 13:30: kit-1 was done at 8. It is another litter, so the treater changes gloves from 12 to 14;
    // the holder changed his own and went his way before, where one who set out only now would be there at 15.
    expect(next).toMatchObject({ start: 14, fetchFrom: 13 });
    expect(next?.animal).not.toBe('kit-1');
  });

  it('lets the animal in hand be finished first', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 3, '13:33');
    const first = live(log, '13:34').ahead[0]?.steps.find((step) => step.is === 'handling');
    expect(first?.animal).toBe('kit-3');
  });
});

describe('the plan that was laid down (Verifies: RIBBON-R7)', () => {
  it('stays with the round, names who comes next, and stands beside what happened', () => {
    const log = plannedLog();
    const { world, view } = viewOf(log);
    const ribbon = view.facts.plan.ribbon;
    expect(ribbon).toBeDefined();
    const [first, second] = ribbon === undefined ? [] : orderOf(ribbon);
    const [stop] = view.stops;
    expect(stop === undefined ? null : nextAnimal(view, stop)?.animal.id).toBe(first);
    for (const schedule of lines[first as keyof typeof lines])
      omitted(log, Number(first?.at(-1)), schedule, 'animal-not-found', '13:36');
    const after = viewOf(log);
    const [again] = after.view.stops;
    expect(again === undefined ? null : nextAnimal(after.view, again)?.animal.id).toBe(second);
    entered(log);
    drawn(log, 1, '13:40');
    started(log, 1, '13:42');
    const { world: later, view: then } = viewOf(log);
    const [visit] = happenedOn(later, then);
    expect(visit?.tests[0]).toMatchObject({ animal: 'kit-1', readAt_s: null, inWindow: null });
    expect((visit?.tests[0]?.opens_s ?? 0) - (visit?.tests[0]?.startedAt_s ?? 0)).toBe(480);
    expect(visit?.blocks.at(-1)).toMatchObject({ animal: 'kit-1' });
    expect(happenedOn(world, view)).toEqual([]);
  });
});

describe('who is next (Verifies: RIBBON-R7)', () => {
  it('is of the same kennel while one there is open, whatever the plan has next', () => {
    const log = plannedLog();
    const ribbon = viewOf(log).view.facts.plan.ribbon;
    const [first, second, third] = ribbon === undefined ? [] : orderOf(ribbon);
    for (const one of [first, third])
      log.one('animal-moved', `animal:${one}`, { section: 'nursery', kennel: 'N9' } as never, when('12:30'));
    const { view } = viewOf(log);
    const [stop] = view.stops;
    expect(stop === undefined ? null : nextAnimal(view, stop, first)?.animal.id).toBe(third);
    expect(stop === undefined ? null : nextAnimal(view, stop, second)?.animal.id).toBe(first);
  });
});

describe('how long things take here (Verifies: RIBBON-R2, RIBBON-R5)', () => {
  it('is assumed until twenty are recorded, then the own median', () => {
    const log = roundLog(lines);
    entered(log);
    const weighAfter = (i: number, seconds: number): void => {
      const start = `2026-03-01T14:${String(i).padStart(2, '0')}:00.000Z`;
      const end = `2026-03-01T14:${String(i).padStart(2, '0')}:${String(seconds).padStart(2, '0')}.000Z`;
      log.one('animal-identified', 'animal:kit-1', { round: roundId, by: 'marks', compared: [] }, start);
      log.one('animal-weighed', 'animal:kit-1', { grams: 620, entered: '620', round: roundId } as never, end);
    };
    const weigh = () => lengthOf(timedIn(viewOf(log).world), 'weigh');
    for (let i = 0; i < 19; i += 1) weighAfter(i, 20 + i);
    expect(weigh()).toMatchObject({ from: 'assumed', seconds: 30, recorded: 19, stretch: 2 });
    weighAfter(19, 39);
    // Seconds 20 to 39: the median is 29.5, 19 of 20 stay below 38.05.
    expect(weigh()).toMatchObject({ from: 'own', seconds: 29.5, recorded: 20 });
    expect(weigh().stretch).toBeCloseTo(38.05 / 29.5, 3);
  });
});
