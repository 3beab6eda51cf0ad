import type { Instance } from './instance.js';
import type { AnimalState, RunState } from './run-state.js';

/**
 * Tests that can no longer be read inside their window, or whose blood has waited too long, taken out of a state: a
 * reading outside the window is invalid and the test has to be repeated, so nothing more is planned for it.
 */
export function withoutLost(
  instance: Instance,
  state: RunState,
): { readonly state: RunState; readonly lost: readonly string[] } {
  const { readLagMin, readLagMax, read, start, sampleHoldMax } = instance.test;
  const lost: string[] = [];
  let time = state.now;
  const waiting = samples(state, 'waiting');
  const running = samples(state, 'running');
  while (waiting.length > 0 || running.length > 0) {
    const [test, blood] = [running[0], waiting[0]];
    const closes = (test?.since ?? Number.MAX_SAFE_INTEGER) + readLagMax;
    const opens = Math.max(time, (test?.since ?? 0) + readLagMin);
    const latest = (blood?.since ?? Number.MAX_SAFE_INTEGER) + sampleHoldMax;
    if (blood !== undefined && (test === undefined || latest < closes || time + start <= opens)) {
      if (time > latest) lost.push(blood.id);
      else {
        time += start;
        running.push({ id: blood.id, since: time });
      }
      waiting.shift();
    } else if (test !== undefined) {
      if (opens > closes) lost.push(test.id);
      else time = opens + read;
      running.shift();
    }
  }
  if (lost.length === 0) return { state, lost };
  const animals = state.animals.map((one): AnimalState => (lost.includes(one.id) ? { ...one, sample: null } : one));
  const started = state.animals.filter((one) => one.sample?.is === 'running' || one.sample?.is === 'read').length;
  return { state: { ...state, animals, kitsUsed: Math.max(state.kitsUsed, started) }, lost };
}

function samples(state: RunState, is: 'waiting' | 'running'): { id: string; since: number }[] {
  return state.animals
    .flatMap(({ id, sample }) => (sample?.is === is && 'since' in sample ? [{ id, since: sample.since }] : []))
    .sort((a, b) => a.since - b.since);
}
