import { describe, expect, it } from 'vitest';
import { drawn, entered, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { starterFormulary } from '../../../test/support/shelter-log.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import { liveRound } from '../../log/plan/live.js';
import { livePicture } from './live-picture.js';
import { namesIn } from './named.js';

type Log = ReturnType<typeof roundLog>;
const animal = 'animal:kit-1';
/** Seconds from the beginning of the round at 13:30. */
const clock = (time: string): number => (Date.parse(when(time)) - Date.parse(when('13:30'))) / 1000;

const read = (log: Log, run: string, time: string) =>
  log.one('test-read', animal, { run, seen: {}, round: roundId } as never, when(time));

/** One draw of the first kitten for both tests; the FIV kit is read from 12 to 20 minutes after its start. */
function bothDrawn(ribbon?: object): Log {
  const log = roundLog({ 'kit-1': ['felv-test', 'fiv-test'], 'kit-2': ['felv-test'] });
  if (ribbon !== undefined) {
    const { view } = viewOf(log);
    log.one('round-planned', `round:${roundId}`, { ...view.facts.plan, ribbon } as never, when('13:00'));
    log.one('round-begun', `round:${roundId}`, {}, when('13:30'));
  }
  entered(log);
  for (const [lot, kitType] of Object.entries({ felv: 'felv-antigen-a', fiv: 'fiv-antibody-a' })) {
    const of = { is: 'kit', kitType, conjugateLot: 'K27' };
    const body = { of, lotText: lot, expires: '2026-12-31', pieces: 9 } as never;
    log.one('lot-received', `lot:${lot}`, body, when('08:30'));
    log.one('kits-out-of-cold', `lot:${lot}`, { count: 3 }, when('13:00'));
  }
  drawn(log, 1, '13:33', { volume_ul: 200 });
  return log;
}

function drawnAt(log: Log, time: string) {
  const later = {
    ...starterFormulary,
    version: '99.0.0',
    kits: starterFormulary.kits.map((kit) =>
      kit.id === 'fiv-antibody-a' ? { ...kit, readOpens_s: 720, readCloses_s: 1200 } : kit,
    ),
  };
  const { world: plain, view } = viewOf(log);
  const world = { ...plain, shelter: { ...plain.shelter, formulary: later } };
  const plan = liveRound(world, view, { now: when(time), keepGoing: () => false });
  const picture = livePicture(world, view, plan, clock(time), namesIn(world));
  const threads = (lane: number) => picture.lanes[lane]?.sections[0]?.threads ?? [];
  const steps = plan.ahead[0]?.steps.filter((step) => step.is === 'reading' && step.animal === 'kit-1') ?? [];
  const planned = Object.fromEntries(
    steps.map((step) => [step.kit ?? 'no kit', (plan.ahead[0]?.inside_s ?? 0) + step.start * 30]),
  );
  return { threads, own: threads(0).filter((one) => one.animal === 'kit-1'), planned, world };
}

describe('two tests of one animal that run at once (Verifies: RIBBON-R3, PLAN-R16)', () => {
  const running = (): Log => {
    const log = bothDrawn();
    started(log, 1, '13:34');
    started(log, 1, '13:35', 'fiv-test');
    return log;
  };

  it('have each its own planned reading and its own window', () => {
    const { own, planned } = drawnAt(running(), '13:36');
    expect(Object.keys(planned).sort()).toEqual(['felv-test', 'fiv-test']);
    expect(planned['felv-test']).not.toBe(planned['fiv-test']);
    const [felv, fiv] = own;
    expect(felv).toMatchObject({ name: 'Kit 1 (FeLV test)', from_s: clock('13:34'), state: 'running' });
    expect(fiv).toMatchObject({ name: 'Kit 1 (FIV test)', from_s: clock('13:35'), state: 'running' });
    expect([felv?.opens_s, felv?.closes_s]).toEqual([clock('13:34') + 480, clock('13:34') + 600]);
    expect([fiv?.opens_s, fiv?.closes_s]).toEqual([clock('13:35') + 720, clock('13:35') + 1200]);
    expect([felv?.readAt_s, fiv?.readAt_s]).toEqual([planned['felv-test'], planned['fiv-test']]);
    for (const one of own) {
      expect(one.readAt_s).toBeGreaterThanOrEqual(one.opens_s);
      expect(one.readAt_s).toBeLessThan(one.closes_s);
    }
  });

  it('have them also after one has been read', () => {
    const log = running();
    read(log, 'run-1', '13:43');
    const { own, planned } = drawnAt(log, '13:44');
    expect(Object.keys(planned)).toHaveLength(1);
    expect(own.map(({ state, readAt_s }) => [state, readAt_s])).toEqual([
      ['read', clock('13:43')],
      ['running', Object.values(planned)[0]],
    ]);
    expect([own[1]?.opens_s, own[1]?.closes_s]).toEqual([clock('13:35') + 720, clock('13:35') + 1200]);
    read(log, 'run-1+fiv-test', '13:49');
    expect(drawnAt(log, '13:50').own.map(({ state, readAt_s }) => [state, readAt_s])).toEqual([
      ['read', clock('13:43')],
      ['read', clock('13:49')],
    ]);
  });

  it('and one that was given up takes no reading that is planned for the other', () => {
    const log = running();
    log.one('test-abandoned', animal, { run: 'run-1', why: 'other', round: roundId } as never, when('13:37'));
    const { own, planned } = drawnAt(log, '13:38');
    expect(own.map(({ state, readAt_s }) => [state, readAt_s])).toEqual([
      ['missed', null],
      ['running', planned['fiv-test'] ?? planned['no kit']],
    ]);
    expect(own[1]?.readAt_s).not.toBeNull();
  });

  it('leave another animal the window of its own test, also when that is the only one left', () => {
    const log = running();
    const second = (time: string) =>
      drawnAt(log, time)
        .threads(0)
        .find((one) => one.animal === 'kit-2');
    const window = (time: string) => [
      (second(time)?.opens_s ?? 0) - (second(time)?.from_s ?? 0),
      (second(time)?.closes_s ?? 0) - (second(time)?.from_s ?? 0),
    ];
    expect(window('13:36')).toEqual([480, 600]);
    read(log, 'run-1', '13:43');
    read(log, 'run-1+fiv-test', '13:49');
    expect(second('13:50')?.state).toBe('ahead');
    expect(window('13:50')).toEqual([480, 600]);
  });

  it('have each its own window while one has still to be started', () => {
    const log = bothDrawn();
    started(log, 1, '13:34');
    const { own, planned } = drawnAt(log, '13:34');
    const [felv, fiv] = own;
    expect(felv).toMatchObject({ state: 'running', readAt_s: planned['felv-test'] });
    expect(fiv).toMatchObject({ name: 'Kit 1 (FIV test)', state: 'ahead', readAt_s: planned['fiv-test'] });
    expect((fiv?.opens_s ?? 0) - (fiv?.from_s ?? 0)).toBe(720);
    expect((fiv?.closes_s ?? 0) - (fiv?.from_s ?? 0)).toBe(1200);
  });

  it('have each its own window in the plan the round began with, also where no kit is named', () => {
    const step = (is: 'start-test' | 'reading', of: string, start: number, kit?: string) => ({
      ...{ is, litter: 'L1', animal: of, kind: is === 'reading' ? 'read' : is, op: null, start, duration: 2 },
      ...(kit === undefined ? {} : { kit }),
    });
    const steps = [
      step('start-test', 'kit-1', 0, 'felv-test'),
      step('start-test', 'kit-1', 2, 'fiv-test'),
      step('start-test', 'kit-2', 4),
      step('reading', 'kit-1', 18, 'felv-test'),
      step('reading', 'kit-2', 30),
      step('reading', 'kit-1', 32, 'fiv-test'),
    ];
    const visit = { section: 'nursery', start: 0, inside: 2, out: 40, end: 44, steps };
    const { threads } = drawnAt(
      bothDrawn({ unitSeconds: 30, settings: usualSettings, bound: 40, visits: [visit] }),
      '13:34',
    );
    expect(
      threads(1).map(({ name, from_s, opens_s, closes_s, readAt_s }) => [
        name,
        opens_s - from_s,
        closes_s - from_s,
        readAt_s,
      ]),
    ).toEqual([
      ['Kit 1 (FeLV test)', 480, 600, 60 + 18 * 30],
      ['Kit 1 (FIV test)', 720, 1200, 60 + 32 * 30],
      // Nothing but the FeLV kit is due to it.
      ['Kit 2', 480, 600, 60 + 30 * 30],
    ]);
  });
});
