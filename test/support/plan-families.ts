import { type Chance, chanceFrom } from '../../src/core/route-plan/model/chance.js';
import { Instance } from '../../src/core/route-plan/model/instance.js';

/**
 * The families of reference/planning.json, made anew from a seed by the rules that stand there as text (`generator`).
 * Lengths are assumptions in units of 30 seconds, not published values.
 */
export const families = ['mixed', 'alltest', 'now', 'limit2', 'warm', 'exact', 'wide', 'split', 'splitmix'] as const;
export type Family = (typeof families)[number];

export function madeSection(family: Family, tests: number, seed: number): Instance {
  const chance = chanceFrom(seed);
  const noOthers = family === 'alltest' || family === 'split';
  const flags = [...Array(tests).fill(true), ...Array(noOthers ? 0 : Math.ceil(tests / 2)).fill(false)] as boolean[];
  for (let i = flags.length - 1; i > 0; i -= 1) {
    const j = chance.whole(0, i);
    const [a, b] = [flags[i] === true, flags[j] === true];
    flags[i] = b;
    flags[j] = a;
  }
  const litters: { id: string; animals: unknown[] }[] = [];
  for (let next = 0; next < flags.length; ) {
    const size = Math.min(flags.length - next, chance.whole(1, 4));
    const animals = flags.slice(next, next + size).map((tested, index) => ({
      id: `A${next + index + 1}`,
      tested,
      ops: madeOperations(tested, chance),
    }));
    litters.push({ id: `L${litters.length + 1}`, animals });
    next += size;
  }
  const wide = family === 'wide';
  return Instance.parse({
    id: `${family}-${tests}-${seed}`,
    unitSeconds: 30,
    gloveChange: 2,
    fetch: 2,
    refetch: 3,
    splitVisitAllowed: family === 'split' || family === 'splitmix',
    test: {
      start: 2,
      readLagMin: wide ? 20 : 16,
      readLagMax: wide ? 30 : family === 'exact' ? 16 : 18,
      read: 2,
      sampleHoldMax: family === 'now' ? 0 : 20,
      runningLimit: family === 'limit2' ? 2 : null,
    },
    kitReadyAt:
      family === 'warm' ? Array.from({ length: tests }, (_, k) => (k < Math.ceil(tests / 2) ? 0 : 10 * tests)) : null,
    litters,
  });
}

function madeOperations(tested: boolean, chance: Chance): { kind: string; dur: number }[] {
  const ops: { kind: string; dur: number }[] = [];
  if (tested) ops.push({ kind: 'draw', dur: chance.whole(4, 6) });
  if (chance.next() < 0.5) ops.push({ kind: 'chip', dur: chance.whole(2, 3) });
  if (chance.next() < 0.8) ops.push({ kind: 'injection', dur: chance.whole(1, 2) });
  if (chance.next() < 0.7) ops.push({ kind: 'oral', dur: chance.whole(1, 2) });
  if (chance.next() < 0.5) ops.push({ kind: 'topical', dur: 1 });
  if (ops.length === 0) ops.push({ kind: 'oral', dur: 1 });
  return ops;
}
