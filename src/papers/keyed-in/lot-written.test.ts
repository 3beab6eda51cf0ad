import { expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import type { Lot } from '../../log/views/shelter.js';
import { buildWorld } from '../../log/views/world.js';
import { lotFaults, lotWritten } from './lot-written.js';

const wormer = (of: Lot['of']): boolean => of.is === 'product' && of.product === 'pyrantel-50';

/** Lots of test/support/ward.ts: worm-a until 2027, worm-old until 1 February 2026. */
it('a lot on paper that was recalled or had expired is said before it is recorded (Verifies: SHEET-R24)', () => {
  const log = ward();
  const faultsOf = (text: string, on = '2026-03-10') => {
    const { shelter } = buildWorld(log.records);
    return lotFaults(shelter, wormer, text, day(on)).map(({ stop, why }) => [why.say, stop]);
  };
  expect(faultsOf('worm-a')).toEqual([]);
  expect(faultsOf('worm-old')).toEqual([['ribbon.key-in.lot-expired', true]]);
  expect(faultsOf('worm-old', '2026-02-01')).toEqual([]);
  log.one('lot-withdrawn', 'lot:worm-a', { why: 'recalled' }, at('2026-03-09'));
  expect(faultsOf(' Worm-A ')).toEqual([['ribbon.key-in.lot-withdrawn', true]]);
  // It is the lot all the same: the fact is kept, and flagged.
  expect(lotWritten(buildWorld(log.records).shelter, wormer, 'worm-a').lot).toBe('worm-a');
  log.one('lot-withdrawn', 'lot:worm-a', { why: 'used-up' }, at('2026-03-10'));
  expect(faultsOf('worm-a')).toEqual([['ribbon.key-in.lot-withdrawn', false]]);
});
