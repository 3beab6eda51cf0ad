import type { RoundPlan } from '../../src/core/route-plan/whole-round/round-shape.js';

/** Times from the question to each answer, in milliseconds. */
export interface Times {
  /** A sound plan that cannot be cut short: the same work wherever it is done. */
  readonly first_ms: number;
  /** The plan when the search is over, its time limit included. */
  readonly best_ms: number;
  /** What other choices would change. */
  readonly advice_ms: number;
  readonly plan: RoundPlan;
}

/** What the page says of itself while the worker plans. */
export interface Planned extends Times {
  /** Longest time between two answers of the page to itself. */
  readonly longest_ms: number;
  /** Longest task that the browser reports (50 ms or more), 0 for none. */
  readonly task_ms: number;
  /** Longest time until the ribbon of a plan stands. */
  readonly drawn_ms: number;
  /** One loop of the yardstick in the page, before the question. */
  readonly yardstick_ms: number;
}
