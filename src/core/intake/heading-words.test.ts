import { expect, test } from 'vitest';
import { headingWords } from './compare.js';

test.each([
  ['intakedate', 'intake date'],
  ['AnimalID', 'animal id'],
  ['animalname', 'animal name'],
  ['date_of_birth', 'date of birth'],
  ['dateofbirth', 'date of birth'],
  ['deceaseddate', 'deceased date'],
  ['weightkg', 'weight kg'],
  // Not made of the listed words alone: left as it is.
  ['microchip', 'microchip'],
  ['identifier', 'identifier'],
  ['Kitten', 'kitten'],
  ['Remarks', 'remarks'],
  ['Notation', 'notation'],
])('%s is read as %s (Verifies: IMP-R20)', (heading, words) => {
  expect(headingWords(heading).join(' ')).toBe(words);
});
