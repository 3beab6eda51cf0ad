import type { Round, RoundPlan } from '../../core/route-plan/whole-round/round-shape.js';
import type { LeftOver } from '../../core/route-plan/whole-round/shift.js';

/** What a page asks of the planner. A later job with another number takes the place of the one before. */
export interface PlanJob {
  readonly job: number;
  readonly round: Round;
  readonly rho: number;
  /** Milliseconds after which the best plan so far is the answer; the first plan is never cut short. */
  readonly budget_ms: number;
}

/** One change to the choices and by how many units the end would move; below 0 is earlier. */
export interface Alternative {
  readonly id: string;
  readonly by: number;
}

export type PlanAnswer =
  /** A sound plan; `best` when the search is over. Null when not even one animal fits, or no plan is possible. */
  | {
      readonly is: 'plan';
      readonly job: number;
      readonly best: boolean;
      readonly plan: RoundPlan | null;
      readonly left: readonly LeftOver[];
    }
  | {
      readonly is: 'advice';
      readonly job: number;
      readonly alternatives: readonly Alternative[];
      /** Null: not even with the most teams there can be. Left out when the shift does not end the round. */
      readonly teamsNeeded?: number | null;
    }
  | { readonly is: 'failed'; readonly job: number; readonly message: string };
