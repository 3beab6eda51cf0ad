import { describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { starterFormulary } from '../../../test/support/shelter-log.js';
import { boxNamed, whyNotOfBox } from './box-named.js';
import { boxesOf } from './kit-needs.js';

const kit = starterFormulary.kits[0];
if (kit === undefined) throw new Error('the starter formulary has no kit');

/** Two boxes of the kit, of one lot, and one more that was withdrawn; a test of one of the two came out at 13:00. */
function boxes(now: string, expires = ['2027-01-31', '2027-06-30'], out = 'box-1') {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  const received = (id: string, lotText: string, until: string) =>
    log.one(
      'lot-received',
      `lot:${id}`,
      { of: { is: 'kit', kitType: kit?.id, conjugateLot: lotText }, lotText, expires: until, pieces: 10 } as never,
      at('2026-02-01', '09:00'),
    );
  received('box-1', '24-A 7', expires[0] ?? '');
  received('box-2', '24-A 7', expires[1] ?? '');
  received('box-3', 'K99', '2027-06-30');
  log.one('lot-withdrawn', 'lot:box-3', { why: 'recalled', note: '' } as never, at('2026-02-02', '09:00'));
  log.one('kits-out-of-cold', `lot:${out}`, { count: 1, round: null } as never, when('13:00'));
  const { world } = viewOf(log);
  return boxesOf(
    { world, here: now, today: roundDay as never, clock: { device: '', ahead_ms: 0, sure: true } },
    kit as never,
  );
}

describe('a box that is typed, and stands on the shelf (Verifies: ROUND-R104)', () => {
  it('is that box, whatever its case and blanks; another lot is not', () => {
    const all = boxes(when('13:05'));
    expect(boxNamed(all, ' 24-a7 ')?.lot.id).toBe('box-1');
    expect(boxNamed(all, 'k99')).toMatchObject({ lot: { id: 'box-3' }, fault: 'withdrawn' });
    expect(boxNamed(all, '24-A')).toBeNull();
    expect(boxNamed(all, ' ')).toBeNull();
  });

  it('is the one that is still good, of two with one lot', () => {
    expect(boxNamed(boxes(when('13:05'), ['2026-02-15', '2027-06-30']), '24-A 7')?.lot.id).toBe('box-2');
  });

  it('is the one that has a test out of the cold, of two that are good', () => {
    expect(boxNamed(boxes(when('13:05'), undefined, 'box-2'), '24-A 7')?.lot.id).toBe('box-2');
    expect(boxNamed(boxes(when('13:05'), ['2026-02-15', '2027-06-30'], 'box-1'), '24-A 7')?.lot.id).toBe('box-2');
  });

  it('has the cold clock, the limit and the withdrawal of that box', () => {
    const may = (lot: string, now: string) => whyNotOfBox(boxNamed(boxes(now), lot));
    expect(may('24-a7', when('13:05'))).toMatchObject({ say: 'test.kit-warming' });
    expect(may('24-a7', when('13:45'))).toBeNull();
    expect(may('K99', when('13:45'))).toMatchObject({ say: 'round.box.withdrawn' });
    expect(may('elsewhere', when('13:05'))).toBeNull();
  });
});
