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
  const at = Temporal.Instant.from(weighing.at);
  const current = Temporal.Instant.from(now);
  if (Temporal.Instant.compare(at, current.add({ hours: 24 })) > 0) {
    return { fresh: false, since: null, why: said('dose.gate.weight-from-future', { at: { instant: weighing.at } }) };
  }
  const rows = [...formulary.weightFreshness].sort((a, b) => a.underAgeDays - b.underAgeDays);
  const rule = rows.find((row) => ageDays.youngest < row.underAgeDays);
  if (rule === undefined) {
    const age = { ageDays: ageDays.youngest };
    return { fresh: false, since: null, why: said('dose.gate.weight-no-rule', { age }) };
  }
  const until = at.add({ hours: rule.hours });
  if (Temporal.Instant.compare(current, until) <= 0) return { fresh: true, until: until.toString() };
  const hours = Math.floor((current.epochMilliseconds - at.epochMilliseconds) / 3_600_000);
  return {
    fresh: false,
    since: until.toString(),
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
