import { type Said, said } from '../../../core/said.js';
import type { SectionStop } from '../round.js';
import type { World } from '../world.js';
import { kindOf, type Line, needsPair } from './operations.js';
import type { PlannedStop } from './stop.js';

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
export function waitingForPair(world: World, stops: readonly SectionStop[]): readonly Said[] {
  const waits = ({ lines }: SectionStop['animals'][number]): boolean =>
    lines.some(
      ({ schedule, action, state }) => state === 'open' && needsPair({ kind: kindOf(world, schedule, action, null) }),
    );
  return inWords(stops.flatMap(({ animals }) => animals.filter(waits).map(({ animal }) => animal.id)));
}

const inWords = (animals: readonly string[]): readonly Said[] =>
  animals.length === 0 ? [] : [said('plan.alone', { animals: { list: [...animals] } })];

/** The stops with some of their lines; who has none left is not met. */
export function withLines(
  stops: readonly PlannedStop[],
  stays: (animal: string, line: Line) => boolean,
): PlannedStop[] {
  return stops.flatMap((stop) => {
    const animals = stop.animals.flatMap((one) => {
      const lines = one.lines.filter((line) => stays(one.animal.id, line));
      return lines.length === 0 ? [] : [{ ...one, lines }];
    });
    return animals.length === 0 ? [] : [{ ...stop, animals }];
  });
}
