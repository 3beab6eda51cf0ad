import type { FollowUp } from '../animal/follow-up.js';
import type { LampAnswer } from '../animal/lamp.js';
import type { CalendarDate } from '../calendar.js';
import type { Route } from '../dosing/exact-text.js';
import type { AnimalId, KitTypeId, PersonId, ProductId, RecordId, ScheduleId, SourceId } from '../ids.js';
import { type Said, said } from '../said.js';

/** What a schedule asks people to do. */
export type Action = 'give' | 'test' | 'chip' | 'weigh' | 'look';

/**
 * `to-confirm`: a test was reactive and the medical team has not settled it. `ended-missed`: an order is over and doses of
 * it were missed; it stays until a veterinarian ends or renews it. `when-needed`: an order to be given when its reason is
 * so; it has no day, and is never due and never late.
 */
export type DueStatus =
  | 'due'
  | 'overdue'
  | 'to-confirm'
  | 'ended-missed'
  | 'when-needed'
  | 'not-yet'
  | 'on-hold'
  | 'complete'
  | 'aged-out'
  | 'not-recommended';

/** One step of the reasoning behind a date: which rule gave which date, from what value, by what source. */
export interface TraceStep {
  readonly rule: string;
  readonly value: string;
  readonly date: CalendarDate | null;
  readonly source: SourceId | null;
  /** True for the step that decided the date. */
  readonly bound: boolean;
  /** The step in words of the catalogue. */
  readonly words?: Said;
}

/** One time of a day in an item that is done at wall-clock times of the shelter. */
export interface DueTime {
  readonly on: CalendarDate;
  /** `HH:MM`; empty when the day has no time of its own. */
  readonly at: string;
  /**
   * `open`: still to be done. `done`: confirmed. `missed`: closed, because its time had passed or somebody said why.
   * Of several open ones the last whose time has come may be done; see `timesAt`.
   */
  readonly state: 'open' | 'done' | 'missed';
  readonly why: Said | null;
}

/**
 * The forecast of one schedule for one animal on one day. Never stored as truth: a pure function of history, the
 * signed protocol and the date.
 */
export interface DueItem {
  readonly animal: AnimalId;
  readonly schedule: ScheduleId;
  readonly scheduleName: string;
  readonly action: Action;
  /** Number of the dose that comes next, from 1; not-valid doses do not move it. */
  readonly dose: number;
  readonly status: DueStatus;
  /** First day it may be done. */
  readonly earliest: CalendarDate | null;
  /** The day it should be done. */
  readonly due: CalendarDate | null;
  /** Last day on which it is still in time; overdue from the day after. */
  readonly overdueAfter: CalendarDate | null;
  /** Last day on which it may be done at all. */
  readonly latest: CalendarDate | null;
  readonly hold: Hold | null;
  /** What people should find out or keep in mind before doing it: not known to be pregnant, nursing, no weight ... */
  readonly asks?: readonly Said[];
  /** Where a reactive test stands; left out when there is none. */
  readonly confirm?: Confirm;
  /** What the last look showed, when it waits for the medical team. */
  readonly finding?: Exclude<LampAnswer, 'no-glow'>;
  /** The amount in the words of the veterinarian's order, not worked out by the tool; absent where there is no such. */
  readonly inWords?: string;
  /** Times of the day, when it is done at wall-clock times. */
  readonly times?: readonly DueTime[] | undefined;
  /** The veterinarian's order it comes from; left out when it comes from the protocol. */
  readonly order?: RecordId;
  /** The way in by the order, where that is not the product's own; left out where it is. */
  readonly route?: Route;
  /** Products that satisfy it, preferred first (empty unless action is 'give'). */
  readonly products: readonly ProductId[];
  /** Kit types that satisfy it, preferred first (empty unless action is 'test'). */
  readonly kitTypes: readonly KitTypeId[];
  readonly because: Said;
  readonly sources: readonly SourceId[];
  /** `variant` is the variant that was switched on, left out when none was. */
  readonly protocol: { readonly id: string; readonly version: string; readonly variant?: string };
  readonly trace: readonly TraceStep[];
}

/** A reason not to treat now, with the day on which it ends if that is known. */
export interface Hold {
  readonly code: string;
  readonly until: CalendarDate | null;
  readonly why: Said;
  /** The day on which the reason came up, where that is known. */
  readonly from?: CalendarDate | null;
  /** Who looks after it, and when again, where a person placed it. */
  readonly owner?: PersonId | null;
  readonly recheckOn?: CalendarDate | null;
}

/** Where a reactive test stands. `passed`: the day of the plan is over and nothing came of it. */
export interface Confirm {
  /** Day of the reactive reading. */
  readonly on: CalendarDate;
  readonly state: 'open' | 'planned' | 'passed' | 'confirmed' | 'not-confirmed';
  readonly followUp: FollowUp | null;
}

/** Why, in a sentence; for a held item first why it waits. */
export const whyOf = ({ hold, because }: Pick<DueItem, 'hold' | 'because'>): Said =>
  hold === null ? because : said('due.held-because', { hold: hold.why, because });
