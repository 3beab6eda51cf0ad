import type { Span } from '../../calendar.js';
import { derived } from '../../derived.js';
import { type Said, said } from '../../said.js';

const units = ['years', 'months', 'weeks', 'days'] as const;
type Unit = (typeof units)[number];

/** A span in words of the catalogue, in the unit of its source: 2 weeks stay 2 weeks and never become 14 days. */
export const spanSaid = derived((span: Span): Said => wordsOf(span));

function wordsOf(span: Span): Said {
  const parts = units.flatMap((unit) => partSaid(unit, span[unit] ?? 0));
  const [first, ...others] = parts;
  if (first === undefined) return said('due.span.days', { n: 0 });
  return others.length === 0 ? first : said('due.span.sum', { parts: { list: parts } });
}

function partSaid(unit: Unit, n: number): Said[] {
  if (n === 0) return [];
  const size = Math.abs(n);
  const part = said(`due.span.${unit}`, { n: size });
  return [n === size ? part : said('due.span.less', { part })];
}

/** A span as an ISO 8601 duration, `P2W`, `P12M-4D`: for traces that machines read. */
export function spanText(span: Span): string {
  const text = units.map((unit) => ((span[unit] ?? 0) === 0 ? '' : `${span[unit]}${unit.charAt(0).toUpperCase()}`));
  return `P${text.join('') || '0D'}`;
}
