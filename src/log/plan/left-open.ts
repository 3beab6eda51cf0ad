import { isStillOpen } from '../views/round/is-left.js';
import type { AnimalStop, RoundView, SectionStop } from '../views/round/round.js';

/** Animals on which something is open in a section that people have left: no plan has them any more. */
export interface LeftOpen {
  readonly section: string;
  readonly animals: readonly string[];
}

/** Who is open in a section: something has still to be done by hand, or a test has to be done again. */
const openAnimalsIn = (at: Pick<SectionStop, 'animals'>): AnimalStop[] =>
  at.animals.filter(({ lines }) => lines.some(isStillOpen));

/** The animals that are open in sections that people have left, in the order of the round. */
export const leftOpenIn = (view: Pick<RoundView, 'stops'>): LeftOpen[] =>
  view.stops.flatMap((at) => {
    const animals = at.state === 'left' ? openAnimalsIn(at).map(({ animal }) => animal.id) : [];
    return animals.length === 0 ? [] : [{ section: at.section.id, animals }];
  });
