import { describe, expect, it } from 'vitest';
import { SectionId } from '../../core/ids.js';
import { whereItIs } from './scan-sentence.js';

const [clean, sick] = [SectionId.parse('clean'), SectionId.parse('sick')];
const stop = (id: SectionId, state: 'inside' | 'not-yet' = 'not-yet') => ({ section: { id }, state }) as never;

describe('a chip scanned where it opens nothing (Verifies: ROUND-R82)', () => {
  it.each([
    ['at the door of its section', clean, stop(clean), clean, 'here'],
    ['at the door of another section', sick, stop(sick), clean, 'not-here'],
    ['at its door, with nothing to do', clean, null, clean, 'here-not-on-round'],
    ['at another door, with nothing to do', sick, null, clean, 'not-on-round'],
    ['on a list, outside its section', sick, stop(sick), null, 'other-section'],
    ['on a screen that opens nothing, inside', clean, stop(clean, 'inside'), null, 'is'],
  ])('%s', (_, section, at, door, said) => {
    expect(whereItIs({ section }, at, door)).toBe(said);
  });
});
