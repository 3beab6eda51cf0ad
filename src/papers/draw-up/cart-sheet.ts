import type { DrawUp } from '../../log/prepare/draw-ups.js';
import { nameOf } from '../../told/names.js';
import { mannerText } from '../../told/order-words.js';
import type { Tone } from '../../told/tone.js';
import { say } from '../../words/say.js';
import { courseText, oneDrawText, whereGiven } from './amounts.js';
import { massText } from './mass-text.js';

/** The sheet for the cart: one line a syringe in the order of the round, with the stops among them. */
export interface CartSheet {
  readonly ready: number;
  readonly stopped: number;
  readonly sections: readonly { readonly name: string; readonly rows: readonly CartRow[] }[];
}

/** A piece of a sentence, strong where it must not be read over. */
export interface Piece {
  readonly text: string;
  readonly strong: boolean;
}

export interface CartRow {
  readonly key: string;
  readonly name: string;
  readonly kennel: string;
  readonly product: string;
  /** Which dose of a course; empty when it is given once. */
  readonly course: string;
  /** `tone` null: a figure that is drawn. */
  readonly volume: { readonly tone: Tone | null; readonly text: string };
  /** The mark and the syringe; of a dose that is not drawn by a figure, why and what the order says. */
  readonly mark: readonly Piece[];
  /** The drug in all that is drawn; empty when it is not drawn or not known. */
  readonly drug: string;
  readonly where: string;
  readonly lot: string;
}

export function cartSheet(drawUps: readonly DrawUp[]): CartSheet {
  const ready = drawUps.filter((one) => !one.dose.stopped).length;
  const names = [...new Set(drawUps.map(sectionOf))];
  return {
    ready,
    stopped: drawUps.length - ready,
    sections: names.map((name) => ({ name, rows: drawUps.filter((one) => sectionOf(one) === name).map(cartRow) })),
  };
}

/** Empty for an animal that is in none. */
const sectionOf = ({ section }: DrawUp): string => section?.name ?? '';

const cartRow = (one: DrawUp): CartRow => ({
  key: one.key,
  name: nameOf(one.animal),
  kennel: one.animal.kennel,
  product: one.product.name,
  course: courseText(one),
  volume: volumeOf(one),
  mark: markOf(one),
  drug: one.dose.stopped ? '' : massText(one.dose),
  where: whereGiven(one),
  lot: one.lot?.lotText ?? say('drawup.no-lot'),
});

function volumeOf({ dose }: DrawUp): CartRow['volume'] {
  if (dose.stopped) return { tone: 'stop', text: say('drawup.sheet.stopped') };
  if (dose.inWords !== null) return { tone: 'attention', text: say('drawup.in-words.short') };
  const each = oneDrawText(dose);
  const more = dose.drawn !== null && dose.places !== 1;
  return { tone: null, text: more ? say('drawup.sheet.times', { places: dose.places, each }) : each };
}

const strong = (text: string): Piece => ({ text, strong: true });
const plain = (text: string): Piece => ({ text, strong: false });

function markOf({ dose, animal, schedule }: DrawUp): Piece[] {
  const manner = mannerText(animal, schedule);
  const words = dose.inWords === null ? [] : [strong(say('drawup.in-words', { words: dose.inWords }))];
  if (dose.stopped) {
    const [first] = dose.gates;
    return first === undefined ? [] : [strong(`${say(`gate.${first.code}`)}.`), plain(say(first.why)), ...words];
  }
  if (dose.inWords !== null) return [...words, ...dose.gates.map(({ why }) => plain(say(why)))];
  const { drawn } = dose;
  return [
    ...(drawn === null ? [] : [plain(say('drawup.sheet.mark-in', { mark: drawn.mark, syringe: drawn.syringeName }))]),
    ...(dose.gates.some(({ severity }) => severity === 'second-person') ? [strong(say('drawup.sheet.second'))] : []),
    ...(manner === '' ? [] : [strong(manner)]),
  ];
}
