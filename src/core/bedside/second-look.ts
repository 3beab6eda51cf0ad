import type { Reading } from '../point-of-care/result.js';

/** What the second person says of the marks. */
export type SecondLook = 'same' | 'other' | 'not-looked';

/** A second pair of eyes is asked for, and somebody is there who has them. */
export const asksSecond = (reading: Pick<Reading, 'faint' | 'result'> | null, partner: unknown): boolean =>
  reading !== null && partner !== null && (reading.faint || reading.result === 'reactive');

/** Why the reading cannot be recorded yet, as a sentence's key; null when it can. */
export function readingWaits(
  reading: Pick<Reading, 'faint' | 'result'> | null,
  partner: unknown,
  second: SecondLook | null,
  theirs: unknown = null,
): 'round.why.zones' | 'round.why.second' | 'round.why.second-zones' | null {
  if (reading === null) return 'round.why.zones';
  if (!asksSecond(reading, partner)) return null;
  if (second === null) return 'round.why.second';
  return second === 'other' && theirs === null ? 'round.why.second-zones' : null;
}

/**
 * What the first person marked, and what it means, is shown to nobody before the second pair of eyes has answered, with
 * every mark where it sees something else, or cannot look.
 */
export const hidesResult = (
  reading: Pick<Reading, 'faint' | 'result'> | null,
  partner: unknown,
  second: SecondLook | null,
  theirs: unknown = null,
): boolean => asksSecond(reading, partner) && (second === null || (second === 'other' && theirs === null));

/** Readings of one kit: one whose second look was passed (`unseconded`) has had it once another person read the kit. */
export function withSecondLooks<R extends { readonly by: string; readonly unseconded?: true }>(
  readings: readonly R[],
): readonly R[] {
  if (new Set(readings.map(({ by }) => by)).size < 2) return readings;
  return readings.map((one) => {
    const { unseconded: _, ...rest } = one;
    return rest as R;
  });
}

/** The second look of a test is still missing. */
export const lacksSecond = (readings: readonly { readonly unseconded?: true }[] | undefined): boolean =>
  readings?.some(({ unseconded }) => unseconded === true) ?? false;
