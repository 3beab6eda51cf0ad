import { Span } from '../../../../core/calendar.js';
import { aboutDays } from '../../../../core/protocol/document/limits.js';

export const units = ['years', 'months', 'weeks', 'days'] as const;
export type SpanText = Readonly<Record<string, string>>;

export type ReadSpan =
  | { readonly ok: true; readonly span: Span }
  | { readonly ok: false; readonly why: 'empty' | 'not-whole' | 'less-than-nothing' };

export const textOfSpan = (span: Span): SpanText =>
  Object.fromEntries(units.map((unit) => [unit, span[unit] === undefined ? '' : String(span[unit])]));

/** The number in a field: whole, with a minus for sources that say "12 months less 4 days"; 0 when empty, else null. */
export function whole(text: string): number | null {
  const plain = text.trim().replace('−', '-');
  return plain === '' ? 0 : /^-?\d{1,5}$/.test(plain) ? Number(plain) : null;
}

/** What four fields say together. */
export function spanIn(texts: SpanText): ReadSpan {
  const typed = units.flatMap((unit) => ((texts[unit] ?? '').trim() === '' ? [] : [[unit, whole(texts[unit] ?? '')]]));
  if (typed.length === 0) return { ok: false, why: 'empty' };
  const span = Span.safeParse(Object.fromEntries(typed));
  if (!span.success) return { ok: false, why: 'not-whole' };
  return aboutDays(span.data) < 0 ? { ok: false, why: 'less-than-nothing' } : { ok: true, span: span.data };
}
