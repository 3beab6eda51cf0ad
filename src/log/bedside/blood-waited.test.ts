import { describe, expect, it } from 'vitest';
import { drawn, roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { bloodWaited } from '../../core/bedside/blood-waited.js';
import { drawAgain } from '../commands/round.js';
import { flagsIn } from '../flags/flags.js';
import { nextStep } from './next-step.js';

const at = (time: string): string => `2026-03-01T${time}:00.000Z`;

describe('blood that waited longer than it may (Verifies: ROUND-R100)', () => {
  it('is told with its minutes, and only past the limit', () => {
    expect(bloodWaited(at('13:00'), at('13:04'), 4)).toBeNull();
    expect(bloodWaited(at('13:00'), at('13:05'), 4)).toBe(5);
    expect(bloodWaited(null, at('13:05'), 4)).toBeNull();
  });

  it.each([
    ['usable', true, 'start'],
    ['failed', false, 'draw'],
  ])('drawn again and %s, the test comes before everything else (Verifies: ROUND-R107)', (_, usable, next) => {
    const log = roundLog({ 'kit-1': ['felv-test', 'chip'] });
    drawn(log, 1, '13:34');
    const body = { run: 'run-2', schedule: 'felv-test', volume_ul: 100, usable, sample: 'whole-blood', round: roundId };
    log.add(drawAgain('kit-1' as never, { run: 'run-1' as never, note: 'Draw again' }, body as never, when('14:15')));
    const { world, stop } = viewOf(log);
    const step = nextStep(world, stop('kit-1'), when('14:16'), roundDay as never);
    expect(step).toMatchObject({ do: next, line: { schedule: 'felv-test' } });
    const runs = stop('kit-1').animal.runs.map(({ run, result }) => [run, result]);
    expect(runs).toEqual([
      ['run-1', 'abandoned'],
      ['run-2', 'running'],
    ]);
  });

  it('and is flagged where somebody went on with it, with the reason', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    drawn(log, 1, '13:34');
    const kit = { lot: null, kitLot: 'K27', conjugateLot: 'K27', outOfColdAt: null };
    const waited = { minutes: 41, limit: 4, reason: 'It was kept cool.' };
    const body = { run: 'run-1', schedule: 'felv-test', kitType: 'felv-antigen-a', round: roundId, waited, ...kit };
    log.one('test-started', 'animal:kit-1', body as never, when('14:15'));
    const flag = flagsIn(viewOf(log).world, roundDay as never).find(({ code }) => code === 'blood-waited');
    expect(flag?.why).toMatchObject({ with: { minutes: 41, limit: 4, reason: 'It was kept cool.' } });
  });
});
