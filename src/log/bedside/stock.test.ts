import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf } from '../../../test/support/round-log.js';
import { starterFormulary } from '../../../test/support/shelter-log.js';
import { kitsOut, nextKit } from './kits-ready.js';
import { lotChoices } from './lot-choices.js';

const kit = starterFormulary.kits[0];
if (kit === undefined) throw new Error('the starter formulary has no kit');
const minutes = (after: string, count: number): string => new Date(Date.parse(after) + count * 60_000).toISOString();

describe('tests out of the cold (Verifies: ROUND-R7)', () => {
  const first = at(roundDay, '13:00');
  const second = at(roundDay, '13:20');
  const lot = {
    outOfCold: [
      { at: first, count: 2 },
      { at: second, count: 3 },
    ],
  };

  it('uses up the oldest first', () => {
    const out = kitsOut(lot, kit, [minutes(first, 40), minutes(first, 41), minutes(first, 42)], minutes(first, 50));
    expect(out.map(({ at: since, left }) => [since, left])).toEqual([[second, 2]]);
  });

  it('does not take a start from a batch that was still in the cold', () => {
    const out = kitsOut(lot, kit, [minutes(first, -5)], second);
    expect(out.map(({ left }) => left)).toEqual([2, 3]);
  });

  it('offers a warm one before one that still warms', () => {
    const at35 = minutes(first, kit.warmMinutes + 5);
    const out = kitsOut(lot, kit, [], at35);
    expect(out.map(({ readiness }) => readiness.is)).toEqual(['ready', 'warming']);
    expect(nextKit(out)?.at).toBe(first);
    expect(nextKit(out.slice(1))?.readiness.is).toBe('warming');
    expect(nextKit([])).toBeNull();
  });

  it('forgets what left the cold more than 12 hours ago', () => {
    expect(kitsOut(lot, kit, [], minutes(first, 12 * 60 + 1))).toHaveLength(1);
  });
});

describe('lots to choose from (Verifies: ROUND-R8)', () => {
  const received = (log: ReturnType<typeof roundLog>, id: string, expires: string, pieces = 10) =>
    log.one(
      'lot-received',
      `lot:${id}`,
      { of: { is: 'product', product: 'pyrantel-50' as never }, lotText: id, expires: day(expires), pieces },
      at('2026-03-01', '09:00'),
    );

  it('puts the first to expire first and hides nothing', () => {
    const log = roundLog({ 'kit-1': [] });
    received(log, 'late', '2027-06-30');
    received(log, 'today', roundDay);
    received(log, 'old', '2026-02-28');
    received(log, 'empty', '2026-04-01', 0);
    received(log, 'bad', '2026-05-01');
    log.one('lot-withdrawn', 'lot:bad', { why: 'recalled' }, at('2026-03-01', '09:30'));
    const { world } = viewOf(log);
    const choices = lotChoices(world, (of) => of.is === 'product' && of.product === 'pyrantel-50', day(roundDay));
    expect(choices.map(({ lot, fault }) => `${lot.lotText} ${fault ?? 'good'}`)).toEqual([
      `today good`,
      '00417 good',
      'late good',
      'empty none-left',
      'old expired',
      'bad withdrawn',
    ]);
  });
});
