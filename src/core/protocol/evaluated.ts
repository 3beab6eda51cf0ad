import type { CalendarDate } from '../calendar.js';
import type { RecordId, ScheduleId } from '../ids.js';
import type { Said } from '../said.js';
import type { Reason } from './progress.js';

/** What one thing in the past of an animal was worth to one schedule. */
export interface Evaluated {
  readonly record: RecordId;
  readonly on: CalendarDate;
  readonly schedule: ScheduleId;
  /**
   * `valid`: met the dose it was meant for. `not-valid`: did not, the dose stays open. `extra`: not needed.
   * `substandard`: given from a bad lot or not taken, to be repeated. `pending`: not known yet.
   */
  readonly status: 'valid' | 'not-valid' | 'extra' | 'substandard' | 'pending';
  readonly reason: Reason;
  /** Number of the dose it was meant for, from 1; null when no dose was open. */
  readonly dose: number | null;
  /** First day on which it would have counted, when it came too soon or too young. */
  readonly validFrom: CalendarDate | null;
  /** First day on which a valid first dose counts by law, where the protocol says so. */
  readonly protectsFrom: CalendarDate | null;
  /** What a test came to, when it came to something. */
  readonly result: 'negative' | 'reactive' | null;
  readonly why: Said;
}
