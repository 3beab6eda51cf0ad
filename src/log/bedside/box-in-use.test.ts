import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { drawn, roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { isReadyToDraw } from '../stock/ready-syringes.js';
import { boxInUse } from './box-in-use.js';
import { lotChoices } from './lot-choices.js';

type Log = ReturnType<typeof roundLog>;
const of = { is: 'supply', name: 'heparin syringes', readyToDraw: true };
const receive = (log: Log, id: string, expires: string, pieces: number) =>
  log.one('lot-received', `lot:${id}`, { of, lotText: id, expires: day(expires), pieces } as never, when('08:30'));
const offered = (log: Log): string | null => {
  const { world, view } = viewOf(log);
  const boxes = lotChoices(world, isReadyToDraw, day(roundDay));
  return boxInUse(world, view, roundId as never, boxes)?.lot.id ?? null;
};

describe('the box in use on a round (Verifies: LOG-R71)', () => {
  it('is none while there is none, and the first to expire to begin with', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    expect(offered(log)).toBeNull();
    receive(log, 'late', '2026-04-01', 5);
    receive(log, 'soon', '2026-03-05', 5);
    expect(offered(log)).toBe('soon');
  });

  it('is the one last recorded, until it is used up by the count', () => {
    const log = roundLog({ 'kit-1': ['felv-test'], 'kit-2': ['felv-test'] });
    receive(log, 'late', '2026-04-01', 2);
    receive(log, 'soon', '2026-03-05', 5);
    drawn(log, 1, '13:33', { usable: false, syringeLot: 'late' });
    expect(offered(log)).toBe('late');
    // Nothing said changes nothing.
    drawn(log, 1, '13:34', { usable: false });
    expect(offered(log)).toBe('late');
    drawn(log, 2, '13:35', { syringeLot: 'late' });
    expect(offered(log)).toBe('soon');
    // Taken from it all the same: the count was wrong, and the team need not say so twice.
    drawn(log, 2, '13:36', { syringeLot: 'late' });
    expect(offered(log)).toBe('late');
  });
});
