import { Temporal } from 'temporal-polyfill';
import { type Said, said } from '../said.js';
import type { FormularyDocument } from './formulary.js';

/** What the dose needs to know of a weighing; `Weighing` of an animal fits. */
export interface WeighingForDose {
  /** Instant, UTC text. */
  readonly at: string;
  readonly grams: number;
  readonly doubtful: boolean;
}

export type Freshness =
  | { readonly fresh: true; readonly until: string }
  | { readonly fresh: false; readonly since: string | null; readonly why: Said };

type Rules = Pick<FormularyDocument, 'weightFreshness'>;

/**
 * Whether a weight may still be used for a dose. The row of the formulary for the animal's age today decides, by the
 * youngest it may be because young animals change fastest. Fresh up to and including the last second. A weight from
 * more than a day ahead is a clock error and is not fresh; an age without a row is not fresh either.
 */
export function weightFresh(
  weighing: Pick<WeighingForDose, 'at' | 'grams'>,
  ageDays: { readonly youngest: number },
  formulary: Rules,
  now: string,
): Freshness {
  const at = msOf(weighing.at);
  const current = msOf(now);
  if (at > current + 24 * hour_ms) {
    return { fresh: false, since: null, why: said('dose.gate.weight-from-future', { at: { instant: weighing.at } }) };
  }
  const rule = ruleAt(ageDays.youngest, formulary);
  if (rule === undefined) {
    const age = { ageDays: ageDays.youngest };
    return { fresh: false, since: null, why: said('dose.gate.weight-no-rule', { age }) };
  }
  const until = at + rule.hours * hour_ms;
  if (current <= until) return { fresh: true, until: textOf(until) };
  const hours = Math.floor((current - at) / hour_ms);
  return {
    fresh: false,
    since: textOf(until),
    why: said('dose.gate.weight-stale', {
      weight: { grams: weighing.grams },
      old: hoursOrDays(hours, rule.hours),
      allowed: hoursOrDays(rule.hours),
      age: { ageDays: Math.max(0, ageDays.youngest) },
    }),
  };
}

/** Under two days in hours, from then on in whole days; with the hours where whole days alone would look like the limit. */
function hoursOrDays(hours: number, allowed: number | null = null): Said {
  if (hours < 48) return said('dose.hours', { n: hours });
  const days = Math.floor(hours / 24);
  if (allowed === null || days > Math.floor(allowed / 24)) return said('dose.days', { n: days });
  return said('dose.days-and-hours', { days, hours: hours % 24 });
}

const hour_ms = 3_600_000;

/** The row with the lowest age above this one, or undefined. */
function ruleAt(days: number, { weightFreshness }: Rules): Rules['weightFreshness'][number] | undefined {
  let found: Rules['weightFreshness'][number] | undefined;
  for (const row of weightFreshness) {
    if (days < row.underAgeDays && (found === undefined || row.underAgeDays < found.underAgeDays)) found = row;
  }
  return found;
}

/** The last few instants that were read; a list of doses is worked out for one and the same now. */
const read = new Map<string, number>();
function msOf(instant: string): number {
  const known = read.get(instant);
  if (known !== undefined) return known;
  const ms = Temporal.Instant.from(instant).epochMilliseconds;
  if (read.size > 64) read.clear();
  read.set(instant, ms);
  return ms;
}

const written = new Map<number, string>();
function textOf(ms: number): string {
  const known = written.get(ms);
  if (known !== undefined) return known;
  const text = Temporal.Instant.fromEpochMilliseconds(ms).toString();
  if (written.size > 64) written.clear();
  written.set(ms, text);
  return text;
}
