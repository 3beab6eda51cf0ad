import type { Instance } from './instance.js';
import { problemOf } from './problem.js';
import type { RunState } from './run-state.js';
import { bloodFor, inTime } from './serve.js';

export interface Sample {
  readonly id: string;
  readonly since: number;
}

/** What is under way in a state, and whether there is time for something else before it. */
export interface Clock {
  readonly all: (state: RunState, is: 'running' | 'waiting') => readonly Sample[];
  /**
   * Whether everything under way can still be started and read in time if the team is busy until `end`; `adds` is what
   * comes under way by then. Starts are taken to last `stretch` times as long as planned.
   */
  readonly fits: (state: RunState, end: number, stretch: number, adds: 'running' | 'waiting' | null) => boolean;
}

export function clockOf(instance: Instance): Clock {
  const p = problemOf(instance, 1);
  const blood = bloodFor(p.animals.length);
  const all = (state: RunState, is: 'running' | 'waiting'): Sample[] =>
    state.animals
      .flatMap(({ id, sample }) => (sample !== null && sample.is === is ? [{ id, since: sample.since }] : []))
      .sort((a, b) => a.since - b.since);
  const fits: Clock['fits'] = (state, end, stretch, adds) => {
    const [waiting, running] = [all(state, 'waiting'), all(state, 'running')];
    if (adds === 'running') waiting.shift();
    if (adds !== null) (adds === 'running' ? running : waiting).push({ id: '', since: end });
    for (const [i, one] of waiting.entries()) blood.waiting[i] = one.since;
    for (const [i, one] of running.entries()) blood.running[i] = one.since;
    blood.waitingCount = waiting.length;
    blood.runningCount = running.length;
    blood.started = state.kitsUsed + (adds === 'running' ? 1 : 0);
    return inTime(p, blood, end, Math.ceil(p.start * Math.max(1, stretch)));
  };
  return { all, fits };
}
