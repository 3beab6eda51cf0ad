import { addSpanTo, type CalendarDate, dayNumber, type Span } from '../calendar.js';

/** What of the last weighing is told to people; signed with the protocol (protocol/document/weight-watch.ts). */
export type WeightRule = { readonly severity: 'stop' | 'attention' } & (
  | { readonly is: 'loss'; readonly percent: number; readonly within_h: number }
  | { readonly is: 'no-gain'; readonly least_h: number; readonly most_h: number }
  | { readonly is: 'slow-gain'; readonly perDay_g: number; readonly least_h: number }
  | { readonly is: 'not-doubled'; readonly fromDay: number }
);

/** How weights are watched under an age; null for the rest of life. */
export interface AgeBand<Rule extends WeightRule = WeightRule> {
  readonly under: Span | null;
  readonly rules: readonly Rule[];
}

/** By the latest day on which it may have been born; where nobody knows the age, the band without an end. */
export function rulesFor(
  watch: readonly AgeBand[],
  { latest, basis }: { readonly latest: CalendarDate; readonly basis: string },
  on: CalendarDate,
): readonly WeightRule[] {
  const [born, today] = [dayNumber(latest), dayNumber(on)];
  const band = watch.find(({ under }) => under === null || (basis !== 'unknown' && today < addSpanTo(born, under)));
  return band?.rules ?? [];
}
