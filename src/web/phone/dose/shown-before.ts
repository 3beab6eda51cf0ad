import { z } from 'zod';
import type { InTheSyringe } from '../../../core/bedside/drawn-up.js';

const place = 'roundhand.shown-to-draw';
const Shown = z.object({
  product: z.string(),
  amount: z.string(),
  mark: z.string(),
  syringe: z.string(),
  strength: z.string(),
  lot: z.string(),
});
const Kept = z.array(z.tuple([z.string(), Shown]));
/** The oldest fall out: more cards than two long rounds have. */
const most = 400;

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** Also where the browser keeps nothing: it then lasts as long as the page. */
let here: readonly (readonly [string, InTheSyringe])[] = [];

function all(shelf: (() => Shelf) | null): typeof here {
  try {
    const kept = Kept.safeParse(JSON.parse((shelf ?? (() => localStorage))().getItem(place) ?? 'null'));
    return kept.success ? kept.data : shelf === null ? here : [];
  } catch {
    return shelf === null ? here : [];
  }
}

const keyOf = (round: string, line: string): string => `${round} ${line}`;

/** What the card of a line showed last to whoever draws up on this device, and stood unchanged or was confirmed. */
export const shownBefore = (round: string, line: string, shelf: (() => Shelf) | null = null): InTheSyringe | null =>
  all(shelf).find(([key]) => key === keyOf(round, line))?.[1] ?? null;

export function keepShown(round: string, line: string, shown: InTheSyringe, shelf: (() => Shelf) | null = null): void {
  const key = keyOf(round, line);
  write([...all(shelf).filter(([other]) => other !== key), [key, shown]], shelf);
}

/** The next card of the line is shown as the first one. */
export const forgetShown = (round: string, line: string, shelf: (() => Shelf) | null = null): void =>
  write(
    all(shelf).filter(([key]) => key !== keyOf(round, line)),
    shelf,
  );

function write(cards: typeof here, shelf: (() => Shelf) | null): void {
  const next = cards.slice(-most);
  if (shelf === null) here = next;
  try {
    (shelf ?? (() => localStorage))().setItem(place, JSON.stringify(next));
  } catch {
    // It then lasts as long as the page.
  }
}
