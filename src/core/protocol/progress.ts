import type { TestFault } from '../animal/animal.js';
import type { DayNumber } from '../calendar.js';
import type { RecordId } from '../ids.js';
import type { Schedule, Series, Target } from './document/document.js';

/** Why something that was done does not count, or does only in part; words in the catalogue under `due.reason.`. */
export type Reason =
  | 'in-time'
  | 'grace'
  | 'too-young'
  | 'too-old'
  | 'too-soon'
  | 'too-near-other-product'
  | 'same-day'
  | 'series-complete'
  | 'not-recommended'
  | 'in-the-future'
  | 'before-birth'
  | 'product-does-not-satisfy'
  | 'product-of-other-class'
  | 'product-unknown'
  | 'expired-lot'
  | 'withdrawn-lot'
  | 'not-taken'
  | 'test-invalid'
  | 'test-outside-window'
  | `test-${TestFault}`
  | 'test-abandoned'
  | 'running'
  | 'not-confirmed'
  | 'not-ordered'
  | 'same-time';

/** Something in the past of the animal that concerns one schedule. */
export interface Done {
  readonly record: RecordId;
  readonly on: DayNumber;
  readonly at: string;
  /** What is wrong with it whatever its date; null when only its date matters. */
  readonly fault: Reason | null;
  /** Whether the next one has to keep its interval from this one. */
  readonly spaces: boolean;
  readonly result: 'negative' | 'reactive' | null;
}

/** What one thing done was worth to the series its schedule follows. */
export interface Judgement {
  readonly done: Done;
  readonly status: 'valid' | 'not-valid' | 'extra' | 'substandard' | 'pending';
  readonly reason: Reason;
  /** Number of the dose it was meant for, from 1; null when no target was open. */
  readonly dose: number | null;
  readonly target: Target | null;
  /** First day on which it would have counted, when it came too soon or too young. */
  readonly validFrom: DayNumber | null;
}

export interface Progress {
  readonly schedule: Schedule;
  /** Null when no series of the schedule is for an animal of this age. */
  readonly series: Series | null;
  readonly judged: readonly Judgement[];
  /** The target that is open today; the number of targets when all are met, left out or over. */
  readonly place: number;
  /** Days of the valid doses that count towards the series. */
  readonly doses: readonly DayNumber[];
  /** True where it began again after too long a gap and nothing was done since: what called for it still does. */
  readonly lapsed: boolean;
  /** What the last test that counts came to; null when none has come to a result. */
  readonly lastResult: Done['result'];
  /** Last day from which intervals are counted. */
  readonly last: DayNumber | null;
  readonly lastJudged: Judgement | null;
}
