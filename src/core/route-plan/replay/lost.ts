import type { Instance } from '../model/instance.js';
import { kitClockOf } from '../model/kits.js';
import { type RunState, samplesOf, startedIn, withSamples } from '../model/run-state.js';

interface Under {
  readonly id: string;
  /** Which of the animal's samples. */
  readonly place: number;
  readonly later: number;
  readonly since: number;
  /** Its kit was never started: there is blood, and nothing to read. */
  readonly isBlood: boolean;
}

/**
 * Tests that can no longer be read inside their window, or whose blood has waited too long, taken out of a state: a
 * reading outside the window is invalid and the test has to be repeated, so nothing more is planned for it. `blood` are
 * those of `lost` that have lost no started test.
 */
export function withoutLost(
  instance: Instance,
  state: RunState,
): { readonly state: RunState; readonly lost: readonly string[]; readonly blood: readonly string[] } {
  const { read, start, sampleHoldMax } = instance.test;
  const { lagMin, lagMax, later } = kitClockOf(instance);
  const lost: Under[] = [];
  let time = state.now;
  const under = (is: 'waiting' | 'running'): Under[] =>
    state.animals
      .flatMap((one) =>
        samplesOf(one).flatMap((blood, place) => {
          if (blood.is !== is) return [];
          const own = later(blood.kit);
          return [
            {
              id: one.id,
              place,
              later: own,
              isBlood: is === 'waiting',
              since: blood.since + (is === 'running' ? own : 0),
            },
          ];
        }),
      )
      .sort((a, b) => a.since - b.since || b.later - a.later);
  const waiting = under('waiting');
  const running = under('running');
  while (waiting.length > 0 || running.length > 0) {
    const [test, blood] = [running[0], waiting[0]];
    const closes = (test?.since ?? Number.MAX_SAFE_INTEGER) + lagMax;
    const opens = Math.max(time, (test?.since ?? 0) + lagMin);
    const latest = (blood?.since ?? Number.MAX_SAFE_INTEGER) + sampleHoldMax;
    if (blood !== undefined && (test === undefined || latest < closes || time + start <= opens)) {
      if (time > latest) lost.push(blood);
      else {
        time += start;
        running.push({ ...blood, since: time + blood.later });
        running.sort((a, b) => a.since - b.since);
      }
      waiting.shift();
    } else if (test !== undefined) {
      if (opens > closes) lost.push(test);
      else time = opens + read;
      running.shift();
    }
  }
  if (lost.length === 0) return { state, lost: [], blood: [] };
  const animals = state.animals.map((one) => {
    const kept = samplesOf(one).filter((_, place) => !lost.some((gone) => gone.id === one.id && gone.place === place));
    return withSamples(one, kept);
  });
  const names = [...new Set(lost.map((one) => one.id))];
  const blood = names.filter((id) => lost.every((one) => one.id !== id || one.isBlood));
  const kitsUsed = Math.max(state.kitsUsed, startedIn(state));
  return { state: { ...state, animals, kitsUsed }, lost: names, blood };
}
