import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { instrument } from '../../scripts/mutate/instrument.mjs';
import { noReason, pageWith, placeOf, reasonsOf } from '../../scripts/mutate/page.mjs';

const page = readFileSync(new URL('../../docs/mutation.md', import.meta.url), 'utf8');

interface Mutant {
  readonly id: number;
  readonly path: string;
  readonly within: string;
  readonly from: string;
  readonly to: string;
}

/** The mutants of a small file. */
function mutantsOf(text: string): Mutant[] {
  const mutants: Mutant[] = [];
  instrument('src/core/protocol/small.ts', text, mutants);
  return mutants;
}
const empty = 'Before.\n<!-- survivors: begin -->\n<!-- survivors: end -->\nAfter.\n';
const small = 'export const order = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);\n';

describe('the table of changes that no test notices', () => {
  test('names a reason for every row', () => {
    const reasons = [...reasonsOf(page).values()];
    expect(reasons.length).toBeGreaterThan(0);
    expect(reasons.filter((one) => one === noReason || one.length < 10)).toEqual([]);
  });

  test('keeps a reason with its own row when it is made again, also of two alike, whatever moved', () => {
    const ones = mutantsOf(small).filter((one) => one.from === '1');
    expect(ones).toHaveLength(2);
    const first = pageWith(empty, 'Two live.', ones, mutantsOf(small));
    const written = first.replace(noReason, 'the first').replace(noReason, 'the second');
    expect([...reasonsOf(written).values()]).toEqual(['the first', 'the second']);

    const moved = mutantsOf(`const other = 1;\n\n\n${small}`);
    const left = moved.filter((one) => one.from === '1' && one.within === 'order');
    const again = pageWith(written, 'Two live.', left, moved);
    expect([...reasonsOf(again).values()]).toEqual(['the first', 'the second']);
    // The first was killed since: its reason goes, the second's stays.
    expect([...reasonsOf(pageWith(again, 'One lives.', left.slice(1), moved)).values()]).toEqual(['the second']);
    expect(pageWith(again, 'None.', [], moved)).toMatch(/^Before\.\n[\s\S]*None\.[\s\S]*\nAfter\.\n$/);
  });

  test('tells every change of a file from all others', () => {
    for (const text of [small, 'const a = (x: boolean, y: boolean) => (x || y) && !(x || y);\n']) {
      const mutants = mutantsOf(text);
      expect(new Set(mutants.map((one) => placeOf(one, mutants))).size).toBe(mutants.length);
    }
  });
});
