import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextGap, putAt, stepBy } from './order-moves.js';

/** `Aa Ab Ba`: the first letter is the litter. */
const litterOf = (animal: string): string => animal.slice(0, 1);
const order = (text: string): string[] => text.split(' ');
const put = (text: string, animal: string, gap: number): string => putAt(order(text), litterOf, animal, gap).join(' ');

describe('a hand on the order of a section (Verifies: RIBBON-R8)', () => {
  it.each([
    ['within its litter alone', 'Aa Ab Ac Ba', 'Aa', 3, 'Ab Ac Aa Ba'],
    ['between other litters with its own', 'Aa Ab Ba Ca Cb', 'Ab', 3, 'Ba Aa Ab Ca Cb'],
    ['to the end with its litter', 'Aa Ab Ba Ca', 'Aa', 4, 'Ba Ca Aa Ab'],
    ['inside another litter alone, for the plan to refuse', 'Aa Ab Ba Bb', 'Aa', 3, 'Ab Ba Aa Bb'],
    ['where it stands', 'Aa Ab Ba', 'Ab', 1, 'Aa Ab Ba'],
  ])('puts an animal %s', (_, text, animal, gap, expected) => {
    expect(put(text, animal, gap)).toBe(expected);
  });

  it.each([
    ['Aa Ab Ba Bb', 'Aa', 1, 'Ab Aa Ba Bb'],
    ['Aa Ab Ba Bb', 'Ab', 1, 'Ba Bb Aa Ab'],
    ['Aa Ab Ba Bb', 'Ba', -1, 'Ba Bb Aa Ab'],
    ['Aa Ab Ba Bb', 'Aa', -1, 'Aa Ab Ba Bb'],
  ] as const)('in %s moves %s by %i', (text, animal, by, expected) => {
    expect(stepBy(order(text), litterOf, animal, by).join(' ')).toBe(expected);
  });

  it('walks with the keys over every place that holds, and stops at the ends', () => {
    const all = order('Aa Ab Ba Bb Ca');
    const met: number[] = [0];
    for (let gap = 0, to = nextGap(all, litterOf, 'Aa', 0, 1); to !== gap; to = nextGap(all, litterOf, 'Aa', to, 1)) {
      met.push(to);
      gap = to;
    }
    expect(met).toEqual([0, 2, 4, 5]);
  });

  it('loses and doubles nobody, whatever the hand does', () => {
    const sizes = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(sizes, fc.nat(), fc.nat(), (litters, which, where) => {
        const all = litters.flatMap((size, i) => Array.from({ length: size }, (_, a) => `${'ABCDE'[i]}${a}`));
        const animal = all[which % all.length] ?? '';
        const made = putAt(all, litterOf, animal, where % (all.length + 1));
        expect([...made].sort()).toEqual([...all].sort());
      }),
    );
  });
});
