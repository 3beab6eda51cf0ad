import { describe, expect, it } from 'vitest';
import { LotId } from '../../core/ids.js';
import { TreatmentGiven } from '../kinds/treatment.js';
import { givenOtherwise, typedOf } from './given-otherwise.js';

const vial = LotId.parse('lot-1');
const given = (more: object) =>
  TreatmentGiven.parse({
    schedule: null,
    product: 'pyrantel-50',
    lot: vial,
    volume_ul: 240,
    route: 'by mouth',
    ...more,
  });

describe('a dose that is put otherwise', () => {
  const dose = given({});
  const typed = typedOf(dose);

  it('stays as it was while nothing is typed', () => {
    expect(givenOtherwise(dose, typed, null)).toEqual(dose);
    const tablet = given({ volume_ul: null, pieces: '1/2' });
    expect(givenOtherwise(tablet, typedOf(tablet), null)).toEqual(tablet);
  });

  it('is read as a volume, by the scale of its syringe, and not kept while it cannot be read', () => {
    expect(givenOtherwise(dose, { ...typed, amount: '0.26 mL' }, null)).toMatchObject({ volume_ul: 260 });
    expect(givenOtherwise(dose, { ...typed, amount: '10 units' }, 'U-40')).toMatchObject({ volume_ul: 250 });
    expect(givenOtherwise(dose, { ...typed, amount: 'some', chosen: 300 }, null)).toMatchObject({ volume_ul: 300 });
    for (const amount of ['', ' ', 'some']) expect(givenOtherwise(dose, { ...typed, amount }, null)).toBeNull();
  });

  it('keeps to pieces where it was given in pieces', () => {
    const tablet = given({ volume_ul: null, pieces: '1/2' });
    const now = { ...typedOf(tablet), amount: ' 1 ' };
    expect(givenOtherwise(tablet, now, null)).toMatchObject({ volume_ul: null, pieces: '1' });
    expect(givenOtherwise(tablet, { ...now, amount: '' }, null)).toBeNull();
    const unsaid = given({ volume_ul: null });
    expect(givenOtherwise(unsaid, typedOf(unsaid), null)).toMatchObject({ pieces: '' });
  });

  it('has a lot of the stock or one in words, never both', () => {
    const words = { ...typed, lotText: ' AB12 ' };
    expect(givenOtherwise(dose, words, null)).toMatchObject({ lot: vial, lotText: '' });
    expect(givenOtherwise(dose, { ...words, lot: null }, null)).toMatchObject({ lot: null, lotText: 'AB12' });
  });

  it('takes box, outcome and note', () => {
    const more = { box: LotId.parse('box-1'), outcome: 'not-taken' as const, note: 'spat out' };
    expect(givenOtherwise(dose, { ...typed, ...more }, null)).toMatchObject({
      syringeLot: 'box-1',
      outcome: 'not-taken',
      note: 'spat out',
    });
  });
});
