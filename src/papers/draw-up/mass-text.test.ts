import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { CalendarDate } from '../../core/calendar.js';
import { doseOf } from '../../core/dosing/dose.js';
import { massOfOneDraw, massText } from './mass-text.js';

const formulary = starterFormulary();
const now = '2026-03-12T15:00:00Z';
function dose(id: string, grams: number, days: number) {
  const product = formulary.products.find((one) => one.id === id);
  if (product === undefined) throw new Error(`no product ${id}`);
  return doseOf({
    product,
    formulary,
    weighing: { grams, at: now, doubtful: false },
    ageDays: { youngest: days, oldest: days },
    today: CalendarDate.parse('2026-03-12'),
    now,
    syringes: formulary.syringes.map((one) => one.id),
  });
}
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

/** 0.11 mL of 50 mg per mL are 5.5 mg; 10 mg per kg of 564 g are 5.64 mg, which stood beside it. */
describe('the mass beside a drawn volume (Verifies: DOSE-R63)', () => {
  it('is that of what is drawn', () => {
    const pyrantel = dose('pyrantel-50', 564, 60);
    expect(pyrantel).toMatchObject({ exact_ug: 5640, total_ul: 110, drawn_ug: 5500 });
    expect(plain(massText(pyrantel))).toBe('5.5 mg');
    expect(plain(massOfOneDraw({ ...pyrantel, places: 2 }))).toBe('2.75 mg');
  });
  it('is that of the exact amount where nothing is drawn, and empty where none is known', () => {
    const tablet = dose('praziquantel-tablet-23', 1000, 200);
    expect([tablet.drawn_ug, massText(tablet) === '']).toEqual([null, tablet.exact_ug === null]);
    expect(massText(dose('saline-0-9', 564, 60))).toBe('');
  });
});
