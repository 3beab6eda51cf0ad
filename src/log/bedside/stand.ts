import { isStopped } from '../views/round/identity.js';
import { isChipIn, isDrawn, isLeft, needsRepeat } from '../views/round/is-left.js';
import type { AnimalStop, RoundLine } from '../views/round/round.js';

/** How an animal of a round stands, the gravest first; of several the first one is said. */
export const stands = [
  /** A chip that is not its own was read on it, and nobody has made sure of it since. */
  'stopped',
  'two-numbers',
  'chip-unread',
  /** Reactive on this round: the medical team decides. */
  'reactive',
  /** The ringworm lamp showed a glow, or may have. */
  'glow',
  'unsure',
  /** Blood is drawn, and its test is not started. */
  'drawn',
  /** A chip is in, and was not scanned since. */
  'chip-in',
  /** A test without a valid result. */
  'repeat',
  'running',
  'open',
  /** Everything was done, but not as it should be, or the animal was found ill. */
  'look',
  /** Something was left, with a reason. */
  'not-done',
  'done',
] as const;

export type Stand = (typeof stands)[number];

/** Of one line; null while it is as it should be. */
function standOfLine(line: RoundLine): Exclude<Stand, 'stopped' | 'done'> | null {
  if (line.chip !== undefined) return line.chip === 'two-numbers' ? 'two-numbers' : 'chip-unread';
  if (line.run?.result === 'reactive') return 'reactive';
  if (line.answer === 'glow' || line.answer === 'unsure') return line.answer;
  if (isDrawn(line)) return 'drawn';
  if (isChipIn(line)) return 'chip-in';
  if (needsRepeat(line)) return 'repeat';
  if (line.state === 'running') return 'running';
  if (isLeft(line)) return 'open';
  if (line.state === 'not-done') return 'not-done';
  return line.abnormal ? 'look' : null;
}

/**
 * How an animal stands: the one answer for overview, section, list, strip of time and desk. `done` is said only when every
 * line was done and none of them is to be looked at, waited for or done again.
 */
export function standOf(stop: AnimalStop): Stand {
  const found = new Set(stop.lines.flatMap((line) => standOfLine(line) ?? []));
  if (stop.unwell) found.add('look');
  return stands.find((one) => (one === 'stopped' ? isStopped(stop) : one !== 'done' && found.has(one))) ?? 'done';
}

export type StandCounts = Readonly<Record<Stand, number>>;

/** How many animals stand how; each is counted once. */
export function standCounts(stops: readonly AnimalStop[]): StandCounts {
  const counts = Object.fromEntries(stands.map((one) => [one, 0])) as Record<Stand, number>;
  for (const stop of stops) counts[standOf(stop)] += 1;
  return counts;
}
