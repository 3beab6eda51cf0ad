import { describe, expect, it } from 'vitest';
import { drawn, entered, roundDay, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { flagsIn } from '../flags/flags.js';
import { liveRound } from '../plan/live.js';
import { nextAnimal } from './next-animal.js';
import { standOf } from './stand.js';

const lines = { 'kit-1': ['felv-test', 'roundworm'], 'kit-2': ['roundworm'], 'kit-3': ['felv-test', 'roundworm'] };
type Log = ReturnType<typeof roundLog>;

function next(log: Log, except = ''): string | null {
  const { view } = viewOf(log);
  const [stop] = view.stops;
  return stop === undefined ? null : (nextAnimal(view, stop, except)?.animal.id ?? null);
}

const strangeChip = (log: Log, kit: number, time: string): void => {
  const found = { raw: '900000000000123', code: '900000000000123', class: 'iso' };
  log.one(
    'chip-scanned',
    `animal:kit-${kit}`,
    { occasion: 'identify', target: 'animal', found, round: roundId } as never,
    when(time),
  );
};

describe('which animal comes next on a round (Verifies: ROUND-R102)', () => {
  it('is the one whose blood waits, the longest first, and it stands as drawn', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 3, '13:34');
    drawn(log, 1, '13:36');
    expect(next(log, 'kit-2')).toBe('kit-3');
    expect(next(log, 'kit-3')).toBe('kit-1');
    const { stop } = viewOf(log);
    expect(['kit-1', 'kit-2', 'kit-3'].map((kit) => standOf(stop(kit)))).toEqual(['drawn', 'open', 'drawn']);
    started(log, 3, '13:38');
    expect(next(log, 'kit-2')).toBe('kit-1');
  });

  it('is one on which something can be done before one that was read as another cat; the clock has no time for that one', () => {
    const log = roundLog(lines);
    entered(log);
    strangeChip(log, 1, '13:32');
    expect(standOf(viewOf(log).stop('kit-1'))).toBe('stopped');
    const met = ['kit-2', 'kit-3'].map((except) => next(log, except));
    expect(met).toEqual(['kit-3', 'kit-2']);
    for (const kit of [2, 3]) {
      for (const schedule of lines[`kit-${kit}` as keyof typeof lines]) {
        const body = { schedule, reason: 'animal-not-found', round: roundId };
        log.one('treatment-not-given', `animal:kit-${kit}`, body as never, when('13:33'));
      }
    }
    expect(next(log)).toBe('kit-1');
    const { world, view } = viewOf(log);
    const plan = liveRound(world, view, { now: when('13:40') });
    expect(plan.changes.find(({ say }) => say === 'ribbon.stopped')?.with).toMatchObject({
      animals: { list: ['kit-1'] },
    });
    expect(plan.ahead.flatMap(({ steps }) => steps.map(({ animal }) => animal))).not.toContain('kit-1');
  });

  it('blood that was drawn and never used has a flag that says so, and no test that was given up', () => {
    const log = roundLog(lines);
    entered(log);
    drawn(log, 1, '13:34');
    const body = { run: 'run-1', why: 'ran-out-of-time', round: roundId };
    log.one('test-abandoned', 'animal:kit-1', body as never, when('14:34'));
    const codes = flagsIn(viewOf(log).world, roundDay as never).map(({ code }) => code);
    expect(codes).toContain('draw-unused');
    expect(codes).not.toContain('test-abandoned');
  });
});
