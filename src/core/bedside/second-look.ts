import type { Reading } from '../point-of-care/result.js';

/** What the second person says of the marks. */
export type SecondLook = 'same' | 'not-looked';

/** A second pair of eyes is asked for, and somebody is there who has them. */
export const asksSecond = (reading: Pick<Reading, 'faint' | 'result'> | null, partner: unknown): boolean =>
  reading !== null && partner !== null && (reading.faint || reading.result === 'reactive');

/** Why the reading cannot be recorded yet, as a sentence's key; null when it can. */
export function readingWaits(
  reading: Pick<Reading, 'faint' | 'result'> | null,
  partner: unknown,
  second: SecondLook | null,
): 'round.why.zones' | 'round.why.second' | null {
  if (reading === null) return 'round.why.zones';
  return asksSecond(reading, partner) && second === null ? 'round.why.second' : null;
}
