import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { buildWorld } from '../world.js';
import { signsNow } from './signs-now.js';

describe('what stands of an animal before whoever treats it (Verifies: ROUND-R109)', () => {
  it('is each sign of illness and a bite, until somebody notes it as over or its time has run out', () => {
    const log = ward();
    log.take('pip', '2026-01-20', { arrivedOn: day('2026-03-01') });
    const note = (code: string, state: 'present' | 'absent', date: string, until: string | null = null) =>
      log.one(
        'observation-noted',
        'animal:pip',
        { code, state, on: day(date), until: until === null ? null : day(until) },
        at(date),
      );
    note('sneezing', 'present', '2026-03-10');
    note('bite', 'present', '2026-03-11');
    note('fever', 'present', '2026-03-08', '2026-03-09');
    note('nursing', 'present', '2026-03-10');
    const now = (date: string) => {
      const animal = buildWorld(log.records).animals.get('pip' as never);
      if (animal === undefined) throw new Error('pip is gone');
      return signsNow(animal, day(date)).map(({ what, since }) => [typeof what === 'string' ? what : what.say, since]);
    };
    expect(now('2026-03-12')).toEqual([
      ['desk.observation.sneezing', '2026-03-10'],
      ['desk.observation.bite', '2026-03-11'],
    ]);
    note('sneezing', 'absent', '2026-03-12');
    expect(now('2026-03-12').map(([what]) => what)).toEqual(['desk.observation.bite']);
  });
});
