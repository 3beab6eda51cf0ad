import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

const on = '2026-03-10';
function flagsOf(product: string, amount: { volume_ul: number | null; pieces: string }) {
  const log = ward();
  log.take('una', '2024-01-20', { sex: 'female', arrivedOn: day('2026-03-01') });
  log.one('animal-weighed', 'animal:una', { grams: 3500, entered: '3500 g' }, at(on, '08:00'));
  const body = { schedule: null, product, lot: null, route: 'by mouth', planned_ul: null, ...amount };
  log.one('treatment-given', 'animal:una', body as never, at(on, '10:00'));
  return flagsIn(buildWorld(log.records), day(on)).filter(({ code }) => code === 'given-two-units');
}
const { products } = ward().formulary;
const inPieces = (one: (typeof products)[number], both: boolean) => {
  const rows = one.dose.by === 'bands' ? one.dose.bands : one.dose.by === 'fixed' ? [one.dose] : [];
  return rows.some(({ ml, pieces }) => pieces !== undefined && (ml !== undefined) === both);
};
const tablet = products.find((one) => inPieces(one, false))?.id ?? 'none';
const tube = products.find((one) => inPieces(one, true));

describe('an amount in two units (Verifies: DOSE-R70)', () => {
  it.each([
    ['pieces and a volume of a tablet', tablet, { volume_ul: 800, pieces: '1' }, 1],
    ['pieces and a volume of a liquid', 'pyrantel-50', { volume_ul: 350, pieces: '2' }, 1],
    ['a tablet in pieces', tablet, { volume_ul: null, pieces: '1' }, 0],
    ['a liquid by the volume', 'pyrantel-50', { volume_ul: 350, pieces: '' }, 0],
  ])('%s', (_, product, amount, count) => {
    expect(flagsOf(product, amount)).toHaveLength(count);
  });

  it('is none where the formulary itself gives both', () => {
    expect(flagsOf(tube?.id ?? 'none', { volume_ul: 800, pieces: '1' })).toEqual([]);
    expect(tube).toBeDefined();
  });
});
