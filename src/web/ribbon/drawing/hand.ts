import { createContext } from 'react';
import type { RibbonBlock, RibbonLane, RibbonPicture, RibbonSection } from './ribbon-data.js';

/** An animal of the drawing. */
export interface Spot {
  readonly lane: number;
  readonly section: string;
  readonly animal: string;
}

/** Where it would be put: before the animal at `gap` in the order of a section; the number of animals: last. */
export interface Place {
  readonly lane: number;
  readonly section: string;
  readonly gap: number;
}

/** What the page says to a hand on the drawing. The drawing knows no rules. */
export interface Hand {
  /** The next place in a section that makes another order; the same when there is none. */
  readonly next: (from: Spot, gap: number, by: 1 | -1) => number;
  /** Where it would land in words, or the rule that would break. */
  readonly consider: (from: Spot, to: Place) => { readonly ok: boolean; readonly words: string };
  readonly put: (from: Spot, to: Place) => void;
}

export interface Holding {
  readonly spot: Spot;
  readonly by: 'pointer' | 'keys';
  readonly place: Place;
  readonly ok: boolean;
  readonly words: string;
}

export interface Held {
  readonly holding: Holding | null;
  /** The animal that Tab goes to. */
  readonly current: string;
  readonly pointerDown: (spot: Spot, event: React.PointerEvent<SVGGElement>) => void;
  readonly keyDown: (spot: Spot, event: React.KeyboardEvent) => void;
  readonly focused: (spot: Spot) => void;
  readonly left: () => void;
  readonly labelOf: (spot: Spot, block: RibbonBlock) => string;
}

/** Null where nothing can be moved: on paper, during the round and after it. */
export const HandContext = createContext<Held | null>(null);

export const keyOf = ({ lane, section, animal }: Spot): string => `${lane} ${section} ${animal}`;

/** The animals of a section in the order in which they are met, each where it is met first. */
export function firstBlocks(section: RibbonSection): RibbonBlock[] {
  const met = new Map<string, RibbonBlock>();
  for (const block of [...section.blocks].sort((a, b) => a.from_s - b.from_s))
    if (!met.has(block.animal)) met.set(block.animal, block);
  return [...met.values()];
}

export const spotsOf = (picture: RibbonPicture): Spot[] =>
  picture.lanes.flatMap((lane, at) =>
    lane.sections.flatMap((section) =>
      firstBlocks(section).map(({ animal }) => ({ lane: at, section: section.id, animal })),
    ),
  );

/** The place in a lane at a moment: before the first animal whose middle is later. Null when the lane is empty. */
export function placeIn(lane: RibbonLane, number: number, at_s: number): Place | null {
  const away = (one: RibbonSection): number => Math.max(one.inside_s - at_s, at_s - one.work_s, 0);
  const [section] = [...lane.sections].sort((a, b) => away(a) - away(b));
  if (section === undefined) return null;
  const blocks = firstBlocks(section);
  const later = blocks.findIndex((block) => (block.from_s + block.to_s) / 2 > at_s);
  return { lane: number, section: section.id, gap: later < 0 ? blocks.length : later };
}

/** The moment at which a place is shown: where the animal begins that would come after it. */
export function momentOf(section: RibbonSection, gap: number): number {
  const blocks = firstBlocks(section);
  return blocks[gap]?.from_s ?? blocks.at(-1)?.to_s ?? section.inside_s;
}
