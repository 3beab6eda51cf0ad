import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { LotId, PersonId } from '../../core/ids.js';
import { TreatmentGiven } from '../kinds/treatment.js';
import { givenOtherwise, judgeOtherwise, saidAgain, typedOf } from './given-otherwise.js';

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

describe('the correction of a dose against what was worked out (Verifies: ROUND-R103)', () => {
  const formulary = starterFormulary();
  const ines = PersonId.parse('ines');
  const wormer = given({ volume_ul: 150, planned_ul: 150, grams: 750 });
  const judged = (amount: string, body = wormer) => {
    const now = givenOtherwise(body, { ...typedOf(body), amount }, null);
    if (now === null) throw new Error(`${amount} is no amount`);
    return { now, about: judgeOtherwise(body, now, formulary) };
  };
  const told = (amount: string, body = wormer) => judged(amount, body).about.map(({ why }) => why.say);

  it('stops a tenfold and a tenth, and says by how much', () => {
    expect(told('1.5 mL')).toContain('dose.gate.given-over');
    expect(told('20 mL')).toContain('dose.gate.given-over');
    expect(told('0.015 mL')).toContain('dose.gate.given-under');
    expect(judged('1.5 mL').about[0]).toMatchObject({ severity: 'stop', why: { with: { times: '10' } } });
    expect(judged('0.18 mL').about).toMatchObject([{ severity: 'second-person' }]);
    expect(told('0.15 mL')).toEqual([]);
  });

  it('holds it against the limits of the product where nothing was worked out', () => {
    const inWords = given({ product: 'doxycycline-10', volume_ul: 740, planned_ul: null, grams: 743 });
    expect(told('7.4 mL', inWords)).toEqual(['dose.gate.volume-over']);
    expect(told('0.7 mL', inWords)).toEqual([]);
  });

  it('asks nothing again of an amount that stays, nor of pieces or a product that is not known', () => {
    const asked = given({ volume_ul: 1500, planned_ul: 150, grams: 750 });
    expect(told('1.5 mL', asked)).toEqual([]);
    expect(told('2', given({ volume_ul: null, pieces: '1' }))).toEqual([]);
    expect(told('20 mL', given({ product: 'not-listed', planned_ul: null }))).toEqual([]);
  });

  it('keeps whose word it stands on, and forgets that with the amount', () => {
    const far = judged('1.5 mL');
    const kept = TreatmentGiven.parse(saidAgain(wormer, far.now, far.about, ines));
    expect(kept.passed).toEqual([{ gate: 'not-the-dose', how: 'no-word', reason: '', by: 'ines' }]);
    const back = judged('0.15 mL', kept);
    expect(saidAgain(kept, back.now, back.about, ines).passed).toEqual([]);
    const lot = { ...kept, note: 'seen' };
    expect(saidAgain(kept, lot, [], ines).passed).toEqual(kept.passed);
    expect(saidAgain(wormer, far.now, far.about, null).passed).toEqual([]);
  });

  it('takes no flag of the limits away', () => {
    const inWords = given({ product: 'doxycycline-10', volume_ul: 740, planned_ul: null, grams: 743 });
    const { now, about } = judged('7.4 mL', inWords);
    expect(saidAgain(inWords, now, about, ines).passed).toEqual([]);
  });
});
