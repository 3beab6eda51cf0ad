import { dayOfClock, quarantineOf, traceBackFrom } from '../../src/core/biosecurity/quarantine.js';
import { CalendarDate } from '../../src/core/calendar.js';
import { ageHintFromWeight, poundAMonth } from '../../src/core/growth/age-hint.js';
import { gainBetween } from '../../src/core/growth/gain.js';
import { weightTables } from '../../src/core/growth/weight-tables.js';
import { plain } from '../../src/core/quantity/exact.js';
import { inGrams, wholeGrams } from '../../src/core/quantity/units.js';
import { codesAt } from '../support/weight-rules.js';
import { runPart } from './schema.js';

const day = (text: string) => CalendarDate.parse(text);
/** Hours after one morning, and grams. */
type Point = readonly [number, number];
const curve = (points: readonly Point[]) =>
  points.map(([hours, grams]) => ({
    at: new Date(Date.parse('2026-03-01T08:00:00Z') + hours * 3_600_000).toISOString(),
    grams,
  }));
function bandOf(table: string, ageDays: number) {
  const found = weightTables.find((each) => each.id === table);
  const band = found?.rows.find((row) => row.ageDays === ageDays);
  if (band === undefined) throw new Error(`table ${table} has no row for ${ageDays} days`);
  return band;
}

runPart('growth', {
  band: (given: { table: string; age_days: number }) => {
    const band = bandOf(given.table, given.age_days);
    return [band.from_g, band.to_g];
  },
  'band-from-ounces': (given: { table: string; age_days: number; ounces: string }) => {
    const exact = inGrams(given.ounces, 'oz');
    const band = bandOf(given.table, given.age_days);
    return { in_table: band.from_g === wholeGrams(exact), grams: Number(plain(exact, 1)) };
  },
  alarms: (given: { weights: readonly Point[]; age_days: number }) => codesAt(curve(given.weights), given.age_days),
  gain: (given: { weights: readonly Point[]; want: readonly string[] }) => {
    const [before, after] = curve(given.weights);
    const gain = before && after ? gainBetween(before, after) : null;
    const all: Record<string, unknown> = {
      grams: gain?.grams,
      per_day: Number(gain?.gramsPerDay),
      percent: Number(Number(gain?.percent).toFixed(1)),
    };
    return Object.fromEntries(given.want.map((name) => [name, all[name]]));
  },
  'pound-a-month': (given: { grams: number }) => poundAMonth(given.grams),
  'age-hint': (given: { grams: number }) => ageHintFromWeight(given.grams).days,
  release: (given: { exposed: string; days: number; cases: readonly string[] }) =>
    quarantineOf(day(given.exposed), given.days, given.cases.map(day)).release,
  'trace-back': (given: { first_sick: string; days: number }) => traceBackFrom(day(given.first_sick), given.days),
  'day-of-clock': (given: { day0: string; day: string }) => dayOfClock(day(given.day0), day(given.day)),
});
