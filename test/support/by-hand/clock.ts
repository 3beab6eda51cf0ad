import type { Instance } from '../../../src/core/route-plan/model/instance.js';
import { problemOf } from '../../../src/core/route-plan/model/problem.js';
import { type RunState, underWay } from '../../../src/core/route-plan/model/run-state.js';
import { bloodFor, inTime, putRunning } from '../../../src/core/route-plan/search/serve.js';

export interface Sample {
  readonly id: string;
  /** End of the draw; of a running test its start as counted (kits.ts). */
  readonly since: number;
  readonly kit?: string | undefined;
}

/** What is under way in a state, and whether there is time for something else before it. */
export interface Clock {
  readonly all: (state: RunState, is: 'running' | 'waiting') => readonly Sample[];
  /** A test is read at least and at most this long after its start as counted. */
  readonly lagMin: number;
  readonly lagMax: number;
  /**
   * Whether everything under way can still be started and read in time if the team is busy until `end`; `adds` is what
   * comes under way by then:
   * one test that is started, or the blood for these kits. Starts are taken to last `stretch` times as long as planned.
   */
  readonly fits: (state: RunState, end: number, stretch: number, adds: Adds) => boolean;
}

export type Adds = 'running' | readonly (string | undefined)[];
/** Nothing new comes under way. */
export const addsNothing: Adds = [];

export function clockOf(instance: Instance): Clock {
  const p = problemOf(instance, 1);
  const blood = bloodFor(p.tests);
  const all = (state: RunState, is: 'running' | 'waiting'): Sample[] =>
    underWay(state, is)
      .map((one) => ({ ...one, since: one.since + (is === 'running' ? p.clock.later(one.kit) : 0) }))
      .sort((a, b) => a.since - b.since || p.clock.later(b.kit) - p.clock.later(a.kit));
  const fits: Clock['fits'] = (state, end, stretch, adds) => {
    const [waiting, running] = [all(state, 'waiting'), all(state, 'running')];
    for (const [i, one] of running.entries()) blood.running[i] = one.since;
    blood.runningCount = running.length;
    if (adds === 'running') {
      const started = end + p.clock.later(waiting.shift()?.kit);
      blood.runningCount = putRunning(blood.running, running.length, started);
    } else waiting.push(...adds.map((kit) => ({ id: '', since: end, kit })));
    for (const [i, one] of waiting.entries()) {
      blood.waiting[i] = one.since;
      blood.later[i] = p.clock.later(one.kit);
    }
    blood.waitingCount = waiting.length;
    blood.started = state.kitsUsed + (adds === 'running' ? 1 : 0);
    return inTime(p, blood, end, Math.ceil(p.start * Math.max(1, stretch)));
  };
  return { all, fits, lagMin: p.lagMin, lagMax: p.lagMax };
}
