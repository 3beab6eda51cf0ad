import { type Said, said } from '../../core/said.js';
import type { SectionStop } from '../views/round/round.js';
import { needsPair } from './operations.js';
import { type PlannedStop, withLines } from './stop.js';

/** The stops for people who all work alone: what needs two is left, and said. */
export function withoutPair(stops: readonly PlannedStop[]): {
  readonly stops: PlannedStop[];
  readonly words: readonly Said[];
} {
  const left = stops.flatMap(({ animals }) =>
    animals.flatMap(({ animal, lines }) => (lines.some(needsPair) ? [animal.id] : [])),
  );
  return { stops: withLines(stops, (_, line) => !needsPair(line)), words: inWords(left) };
}

/** For whom something on a running round waits because nobody holds. */
export function waitingForPair(stops: readonly SectionStop[]): readonly Said[] {
  const waits = ({ lines }: SectionStop['animals'][number]): boolean =>
    lines.some((line) => line.state === 'open' && needsPair(line));
  return inWords(stops.flatMap(({ animals }) => animals.filter(waits).map(({ animal }) => animal.id)));
}

const inWords = (animals: readonly string[]): readonly Said[] =>
  animals.length === 0 ? [] : [said('plan.alone', { animals: { list: [...animals] } })];
