import { type Said, said } from '../../said.js';
import type { Instance, Step } from '../model/instance.js';
import { problemOf } from '../model/problem.js';
import { type RunState, underWay } from '../model/run-state.js';
import { boundsOf } from '../search/bound.js';
import { type Plan, planOf, type Search, safeRho, searchFor } from '../search/search.js';
import { walk } from '../search/walk.js';
import { stepsWished } from '../search/wished.js';
import { changesBetween } from './changes.js';
import { withoutLost } from './lost.js';

export interface Replan extends Search {
  /** What really has happened; its `now` is the end of what people are in the middle of. */
  readonly state: RunState;
  /** Units that another order has to save before it replaces the one people have in mind. */
  readonly worthIt?: number;
  /** Animals in the order that somebody asked for: it is kept as far as the rules allow, whatever another would save. */
  readonly wished?: readonly string[];
}

export interface Replanned {
  readonly plan: Plan;
  /** True when the order of what is left is as it was. */
  readonly sameOrder: boolean;
  /** Animals whose test can no longer be read in time, or whose blood has waited too long. */
  readonly lost: readonly string[];
  readonly changes: readonly Said[];
}

/** Where people run more tests at once than they had set themselves, that is how many they run: all are planned to be read. */
function asManyAsRun(instance: Instance, state: RunState): Instance {
  const running = underWay(state, 'running').length;
  const { runningLimit } = instance.test;
  if (runningLimit === null || running <= runningLimit) return instance;
  return { ...instance, test: { ...instance.test, runningLimit: running } };
}

/** Seconds below which another order is not worth the change. */
const aMinute = 60;

/**
 * Plan what is left of a section, on the time of the running plan. The old order is kept where it can still be followed,
 * unless another order saves `worthIt` and nobody asked for the old one; either way the changes are told. Tests that can no longer be read in time are
 * left out and named. Null only when blood would have to wait for a kit longer than it may.
 */
export function replan(given: Instance, previous: readonly Step[], options: Replan): Replanned | null {
  const { state, lost, blood } = withoutLost(given, options.state);
  const instance = asManyAsRun(given, state);
  const p = problemOf(instance, options.rho ?? safeRho, state, options.reserve ?? 0);
  const bounds = boundsOf(p);
  const told = (plan: Plan, sameOrder: boolean): Replanned => ({
    plan,
    sameOrder,
    lost,
    changes: [
      ...lost.map((animal) =>
        said(blood.includes(animal) ? 'plan.change.blood-too-old' : 'plan.change.lost', { animal }),
      ),
      ...changesBetween(instance, previous, plan.steps, state),
    ],
  });
  const { wished } = options;
  const kept = walk(p, wished === undefined ? previous : stepsWished(instance, wished, previous));
  const keptPlan = kept === null ? null : planOf(p, kept.node, bounds);
  if (keptPlan !== null && wished !== undefined) return told(keptPlan, true);
  const worthIt = options.worthIt ?? Math.max(1, Math.round(aMinute / instance.unitSeconds));
  if (keptPlan !== null && keptPlan.end - bounds.best < worthIt) return told(keptPlan, true);
  const found = searchFor(p, options);
  if (keptPlan !== null && (found === null || keptPlan.end - found.end < worthIt)) return told(keptPlan, true);
  return found === null ? null : told(found, false);
}
