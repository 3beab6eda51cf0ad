import { dayOfInstant } from '../../core/calendar.js';
import type { SayValue } from '../../core/said.js';
import type { Lot } from '../views/shelter.js';

type Keeping = Pick<Lot, 'expires' | 'prepared'>;

/** Until when a lot may be used: to the hour for syringes made ready here, else the last day. Null: not said. */
export function keepsUntil({ expires, prepared }: Keeping): SayValue | null {
  if (prepared !== null) return prepared.keepsUntil === null ? null : { instant: prepared.keepsUntil };
  return expires === null ? null : { date: expires };
}

/** Whether a lot was past its time at an instant. The last day, and the last instant, are still good. */
export function pastAt({ expires, prepared }: Keeping, at: string, zone: string): boolean {
  if (prepared !== null) return prepared.keepsUntil !== null && at > prepared.keepsUntil;
  return expires !== null && dayOfInstant(at, zone) > expires;
}
