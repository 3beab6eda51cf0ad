/**
 * Assumed lengths in seconds until the shelter has its own. Common practice, no source: no published times per task
 * were found (one source says to time a pilot round and keep the medians).
 */
export const assumedSeconds: Readonly<Record<string, number>> = {
  'glove-change': 60,
  fetch: 60,
  refetch: 90,
  confirm: 30,
  weigh: 30,
  draw: 150,
  chip: 75,
  injection: 45,
  oral: 45,
  topical: 30,
  'start-test': 60,
  read: 60,
};

/** For an operation that nobody has timed and no assumption names. */
const otherwise = 45;
/** From so many recorded times on the shelter's own median counts. */
const enough = 20;

export interface Duration {
  readonly seconds: number;
  readonly from: 'own' | 'assumed';
  /** Times recorded so far. */
  readonly recorded: number;
  /** How many times the usual length 19 of 20 stay below; 2 until there are enough. */
  readonly stretch: number;
}

/** Length of one kind of operation from the seconds recorded for it: the median and the spread once there are 20. */
export function durationOf(kind: string, recordedSeconds: readonly number[]): Duration {
  const own = recordedSeconds.filter((one) => Number.isFinite(one) && one > 0).sort((a, b) => a - b);
  if (own.length < enough)
    return { seconds: assumedSeconds[kind] ?? otherwise, from: 'assumed', recorded: own.length, stretch: 2 };
  const seconds = quantile(own, 0.5);
  return { seconds, from: 'own', recorded: own.length, stretch: quantile(own, 0.95) / seconds };
}

/** Between two neighbours in proportion. */
function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(at)] ?? 0, sorted[Math.ceil(at)] ?? 0];
  return low + (high - low) * (at - Math.floor(at));
}

/** Whole units, at least one. */
export const inUnits = (seconds: number, unitSeconds: number): number => Math.max(1, Math.round(seconds / unitSeconds));
