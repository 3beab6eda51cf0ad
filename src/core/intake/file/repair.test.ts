import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { headingWords, nameKey, plainForm } from '../compare.js';
import { readWindows1252 } from './code-page.js';
import { repairText } from './repair.js';

describe('damaged letters (Verifies: IMP-R2)', () => {
  // The first four are rows of the Austin file.
  test.each([
    ['PadmÃ©', 'Padmé'],
    ['AmÃ©lie', 'Amélie'],
    ['CariÃ±o', 'Cariño'],
    ['CÃ©line', 'Céline'],
    ['PadmÃƒÂ©', 'Padmé'],
    ['Oâ€™Malley', 'O’Malley'],
    ['Ã\u008dris', 'Íris'],
    ['Se&#241;or Gusto', 'Señor Gusto'],
    ['Se&#xF1;or', 'Señor'],
    ['Se&ntilde;or', 'Señor'],
    ['Tom &amp; Jerry', 'Tom & Jerry'],
    ['Stra&szlig;e', 'Straße'],
  ])('%s is probably %s', (typed, likely) => {
    expect(repairText(typed)).toBe(likely);
  });
  test.each([
    'Padmé',
    'Señor',
    'Łatka',
    'Мурка',
    '猫',
    'Tom & Jerry',
    'R&B;',
    '&unknown;',
    '&constructor;',
    'Ã',
    '50 €',
    '',
  ])('%s is left alone', (typed) => {
    expect(repairText(typed)).toBeNull();
  });
  test('any accented text read in the wrong code page is found again', () => {
    const letters = fc.string({ unit: fc.constantFrom(...'éñüßøæÍÀâçabc'), minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(letters, (name) => {
        const damaged = readWindows1252(new TextEncoder().encode(name));
        expect(repairText(damaged) ?? damaged).toBe(name);
      }),
    );
  });
});

describe('texts as they are compared (Verifies: IMP-R12)', () => {
  test.each([
    ['Jalapeño', 'Jalapen\u0303o'],
    ['Bonbon', 'Bonbon '],
    ['JALAPEÑO', 'jalapeno'],
    ['*Pip', 'pip'],
    ['"SARAH"', 'Sarah'],
    ['brown  tabby', 'brown tabby'],
  ])('%s and %s are the same name', (one, other) => {
    expect(nameKey(one)).toBe(nameKey(other));
  });
  test('different names stay different', () => {
    expect(nameKey('Thing 2')).not.toBe(nameKey('Thing 3'));
    expect(plainForm('*Pip')).not.toBe(plainForm('Pip'));
  });
  test.each([
    ['AnimalID', ['animal', 'id']],
    ['animal_id', ['animal', 'id']],
    ['Date Of Birth', ['date', 'of', 'birth']],
    ['DOBDate', ['dob', 'date']],
    ['Weight (kg)', ['weight', 'kg']],
  ])('heading %s', (heading, words) => {
    expect(headingWords(heading)).toEqual(words);
  });
});
