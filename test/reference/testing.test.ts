import { readFileSync } from 'node:fs';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { FormularyDocument, type KitType } from '../../src/core/dosing/formulary.js';
import { exactInterval, incompleteBeta, wilson } from '../../src/core/point-of-care/interval.js';
import { kitReady, lotsMatch } from '../../src/core/point-of-care/kit.js';
import { accuracyOf, predict, type Share, type TwoByTwo } from '../../src/core/point-of-care/predict.js';
import { resultOf, type Seen } from '../../src/core/point-of-care/result.js';
import type { Outcome } from '../../src/core/said.js';
import { runPart } from './schema.js';

const starter = FormularyDocument.parse(
  JSON.parse(readFileSync(new URL('../../protocols/starter-formulary.json', import.meta.url), 'utf8')),
);
const { blood } = starter;
if (blood === null) throw new Error('the starter formulary says nothing about blood');
const start = '2026-03-08T14:00:00Z';
/** The instant so many seconds after the start. */
const later = (seconds: number): string => new Date(Date.parse(start) + seconds * 1000).toISOString();

function kitOf(id: string): KitType {
  const found = starter.kits.find((each) => each.id === id);
  if (found === undefined) throw new Error(`no kit ${id}`);
  return found;
}
function value<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.why.say);
  return outcome.value;
}
const percent = (share: number | null | undefined, decimals: number): number | null =>
  share === null || share === undefined ? null : Number((share * 100).toFixed(decimals));
const only = (wanted: readonly string[], all: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(wanted.map((name) => [name, all[name]]));

interface Asked {
  readonly sensitivity: Share;
  readonly specificity: Share;
  readonly prevalence: Share;
  readonly decimals: number;
}

runPart('testing', {
  'range-low': (given: Asked & { method: 'wilson' | 'exact' }) =>
    percent(value(predict(given, given.prevalence, given.method)).range?.ppv.low, 1),
  study: (given: TwoByTwo & { decimals: number; want: readonly string[] }) => {
    const all = accuracyOf(given);
    return only(given.want, {
      sensPct: percent(all.sensitivity?.share, given.decimals),
      specPct: percent(all.specificity?.share, given.decimals),
      ppvPct: percent(all.ppv?.share, given.decimals),
      npvPct: percent(all.npv?.share, given.decimals),
    });
  },
  interval: (given: { hits: number; of: number; decimals: number; want: readonly string[] }) => {
    const both = { wilson: wilson(given.hits, given.of), exact: exactInterval(given.hits, given.of) };
    const shown = (one: { low: number; high: number }) => [
      percent(one.low, given.decimals),
      percent(one.high, given.decimals),
    ];
    return only(given.want, {
      pct: percent(given.hits / given.of, given.decimals),
      wilsonPct: shown(both.wilson),
      exactPct: shown(both.exact),
    });
  },
  reading: (given: { kit: string; after_s: number; seen: Seen }) =>
    resultOf(kitOf(given.kit), start, later(given.after_s), given.seen).result,
  lots: (given: { kit: string; conjugate: string }) =>
    lotsMatch(kitOf('felv-antigen-a'), given.kit, given.conjugate).ok,
  warming: (given: { kit: string; out_of_cold_min: number }) =>
    kitReady(kitOf(given.kit), start, later(given.out_of_cold_min * 60)).is,
});

describe('intervals against jstat (Verifies: TEST-R8)', () => {
  const { jStat } = jstat;
  const z = jStat.normal.inv(0.975, 0, 1);
  const pairs = [1, 2, 7, 15, 146, 154, 495, 1434].flatMap((of) =>
    [0, 0.02, 0.3, 0.5, 0.9, 1].map((part) => [Math.round(part * of), of] as const),
  );
  it.each(pairs)('%i of %i', (hits, of) => {
    const exact = exactInterval(hits, of);
    // Eight digits: jstat's inverse stops iterating there.
    if (hits > 0) expect(exact.low).toBeCloseTo(jStat.beta.inv(0.025, hits, of - hits + 1), 7);
    if (hits < of) expect(exact.high).toBeCloseTo(jStat.beta.inv(0.975, hits + 1, of - hits), 7);
    const p = hits / of;
    const middle = (p + (z * z) / (2 * of)) / (1 + (z * z) / of);
    const half = (z / (1 + (z * z) / of)) * Math.sqrt((p * (1 - p)) / of + (z * z) / (4 * of * of));
    const score = wilson(hits, of);
    expect(score.low).toBeCloseTo(Math.max(0, middle - half), 8);
    expect(score.high).toBeCloseTo(Math.min(1, middle + half), 8);
  });
  it('incomplete beta function', () => {
    for (const [x, a, b] of [
      [0.1, 2, 30],
      [0.5, 5, 5],
      [0.98, 130, 17],
      [0.02, 141, 5865],
      [0.7, 0.5, 0.5],
    ] as const) {
      expect(incompleteBeta(x, a, b)).toBeCloseTo(jStat.ibeta(x, a, b), 8);
    }
  });
});
