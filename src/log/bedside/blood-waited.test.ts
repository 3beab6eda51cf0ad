import { describe, expect, it } from 'vitest';
import { drawn, roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { bloodWaited } from '../../core/bedside/blood-waited.js';
import { flagsIn } from '../flags/flags.js';

const at = (time: string): string => `2026-03-01T${time}:00.000Z`;

describe('blood that waited longer than it may (Verifies: ROUND-R100)', () => {
  it('is told with its minutes, and only past the limit', () => {
    expect(bloodWaited(at('13:00'), at('13:04'), 4)).toBeNull();
    expect(bloodWaited(at('13:00'), at('13:05'), 4)).toBe(5);
    expect(bloodWaited(null, at('13:05'), 4)).toBeNull();
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
