import { type Said, said } from '../../core/said.js';
import { isLeft } from '../views/round/is-left.js';
import type { RoundView } from '../views/round/round.js';

/** What became due after the round had been laid and is still to be done, by animal. */
export const addedInWords = (view: RoundView): Said[] =>
  view.stops.flatMap(({ animals }) =>
    animals.flatMap(({ animal, lines }) => {
      const added = lines.filter((line) => line.added && isLeft(line)).map(({ name }) => name);
      return added.length === 0
        ? []
        : [said('round.added', { animal: animal.name || animal.label, what: { list: added } })];
    }),
  );
