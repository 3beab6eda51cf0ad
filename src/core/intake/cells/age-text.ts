import { Temporal } from 'temporal-polyfill';
import type { CalendarDate } from '../../calendar.js';

type Unit = 'years' | 'months' | 'weeks' | 'days';

/** An age in full units as a person wrote it: from `from` to before `from` + one unit, or to before `to` + one unit. */
export interface AgeText {
  readonly from: Readonly<Record<Unit, number>>;
  readonly to: Readonly<Record<Unit, number>>;
  /** The smallest unit written, which is the precision. */
  readonly unit: Unit;
}

const units: readonly (readonly [Unit, RegExp])[] = [
  ['years', /^(y|yr|yrs|year|years|yo|jahre?|ans?|años?)$/],
  ['months', /^(m|mo|mos|mon|mth|mths|month|months|monate?|mois|mes|meses)$/],
  ['weeks', /^(w|wk|wks|week|weeks|wochen?|semaines?|semanas?)$/],
  ['days', /^(d|day|days|tage?|jours?|días?)$/],
];

const none = { years: 0, months: 0, weeks: 0, days: 0 };

/**
 * Read an age such as `2 months`, `1 weeks`, `7 MONTHS`, `1 yr 6 mos`, `6-8 weeks`, `5w`. `null` for anything else;
 * a bare number is not read, since its unit is a guess.
 */
export function readAgeText(cell: string): AgeText | null {
  const text = cell
    .trim()
    .toLowerCase()
    .replace(/^(approx\.?|approximately|about|around|ca?\.|~|est\.?)\s*/, '')
    .replace(/\s*\(?(old|of age|approx\.?|est\.?|estimated)\)?\.?$/, '');
  const range = /^(\d{1,3})\s*(?:-|–|to)\s*(\d{1,3})\s*(\p{L}+)\.?$/u.exec(text);
  if (range !== null) return rangeOf(Number(range[1]), Number(range[2]), unitOf(range[3] ?? ''));
  const parts = [...text.matchAll(/(\d{1,3})\s*(\p{L}+)\.?/gu)];
  const rest = text.replace(/(\d{1,3})\s*(\p{L}+)\.?/gu, '').replace(/\band\b|[,&\s]/g, '');
  if (parts.length === 0 || rest !== '') return null;
  const age: Record<Unit, number> = { ...none };
  let smallest: Unit = 'years';
  for (const [at, part] of parts.entries()) {
    const unit = unitOf(part[2] ?? '');
    // Units must come from the largest down, each once: `3 m 2 m` is not an age.
    if (unit === null || (at > 0 && rank(unit) <= rank(smallest))) return null;
    age[unit] = Number(part[1]);
    smallest = unit;
  }
  return { from: age, to: age, unit: smallest };
}

const unitOf = (word: string): Unit | null => units.find(([, shape]) => shape.test(word))?.[0] ?? null;
const rank = (unit: Unit): number => units.findIndex(([one]) => one === unit);

function rangeOf(low: number, high: number, unit: Unit | null): AgeText | null {
  if (unit === null || low > high) return null;
  return { from: { ...none, [unit]: low }, to: { ...none, [unit]: high }, unit };
}

/** Days between which an animal was born, both included. */
export interface BornBetween {
  readonly earliest: CalendarDate;
  readonly latest: CalendarDate;
}

/**
 * Birth interval of an animal that had this age on `on`. Ages are full units: `1 year` is 12 to 23 full months, so born
 * after the day two years before and not after the day one year before; `0 years` is anything under a year; an age in
 * days is exact.
 */
export function bornFromAge(age: AgeText, on: CalendarDate): BornBetween {
  const day = Temporal.PlainDate.from(on);
  const next = { ...age.to, [age.unit]: age.to[age.unit] + 1 };
  return {
    earliest: day.subtract(next).add({ days: 1 }).toString() as CalendarDate,
    latest: day.subtract(age.from).toString() as CalendarDate,
  };
}
