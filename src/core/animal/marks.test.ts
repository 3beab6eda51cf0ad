import { describe, expect, it } from 'vitest';
import { animalId } from '../../../test/support/log.js';
import { roundLog, viewOf } from '../../../test/support/round-log.js';
import type { Animal } from './animal.js';
import { isNoMark, marksOf, marksSuffice, tellingMarks } from './marks.js';
import { Photo } from './photo.js';

const { animal: kitten } = viewOf(roundLog({ 'kit-1': [] })).stop('kit-1');
const cat = (id: string, marks: Partial<Animal['marks']>, more: Partial<Animal> = {}): Animal => ({
  ...kitten,
  id: animalId(id),
  litter: null,
  kennel: 'B1',
  marks: { collar: '', coat: '', mark: '', photo: null, ...marks },
  ...more,
});

describe('what is a mark (Verifies: ROUND-R25)', () => {
  it.each([
    '',
    '  ',
    '-',
    'none',
    'None.',
    'none to be seen',
    'no marks',
    'none seen',
    'nothing',
    'not known',
    'N/A',
    '?',
  ])('not “%s”', (text) => {
    expect(isNoMark(text)).toBe(true);
  });
  it.each(['notch in the left ear', 'no tail', 'white toes', 'none on the left, white on the right', 'plain black'])(
    '“%s”',
    (text) => {
      expect(isNoMark(text)).toBe(false);
    },
  );
});

describe('marks in place of a chip (Verifies: ROUND-R3)', () => {
  it('compares what is on record and nothing else', () => {
    expect(marksOf(cat('a', { collar: 'teal', coat: 'black', mark: 'none to be seen' }))).toEqual(['collar', 'coat']);
  });

  it('one is not enough, two that no neighbour has are', () => {
    expect(marksSuffice(cat('a', { coat: 'brown tabby', mark: 'none to be seen' }), [])).toBe(false);
    expect(marksSuffice(cat('a', { coat: 'brown tabby', mark: 'torn ear' }), [])).toBe(true);
  });

  it('what a neighbour has too does not count, however it is written', () => {
    const one = cat('a', { collar: 'teal', coat: 'Black, short' });
    const mate = cat('b', { collar: 'coral', coat: 'black,  short ' });
    expect(tellingMarks(one, [one, mate])).toEqual(['collar']);
    expect(marksSuffice(one, [one, mate])).toBe(false);
    // In another kennel and of another litter nobody takes one for the other.
    expect(marksSuffice(one, [one, { ...mate, kennel: 'B2' }])).toBe(true);
    const litter = { id: 'l' as never, name: 'Finch litter' };
    expect(marksSuffice({ ...one, litter }, [{ ...mate, kennel: 'B2', litter }])).toBe(false);
  });

  it('two photos are one mark only when they are one picture', () => {
    const photo = (digit: string) => Photo.parse({ full: digit.repeat(64), small: 'c'.repeat(64) });
    const one = cat('a', { collar: 'teal', photo: photo('a') });
    expect(marksOf(one)).toEqual(['collar', 'photo']);
    expect(tellingMarks(one, [cat('b', { photo: photo('b') })])).toEqual(['collar', 'photo']);
    expect(tellingMarks(one, [cat('b', { photo: photo('a') })])).toEqual(['collar']);
  });
});
