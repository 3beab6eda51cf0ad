import type { DrawUp } from '../../log/prepare/draw-ups.js';
import type { Shelter } from '../../log/views/shelter.js';
import { nameOf } from '../../told/names.js';
import { foodText } from '../../told/order-words.js';
import { say } from '../../words/say.js';
import { courseText, oneDrawText, whereGiven } from './amounts.js';
import { massOfOneDraw } from './mass-text.js';

/** Label sizes in millimetres: two rolls that common label printers take. */
export const labelSizes = ['62x29', '57x32'] as const;
export type LabelSize = (typeof labelSizes)[number];
export const sizeOf = (size: LabelSize): { readonly width_mm: number; readonly height_mm: number } => {
  const [width = 62, height = 29] = size.split('x').map(Number);
  return { width_mm: width, height_mm: height };
};

/** What stands on the label of one syringe, pipette or tablet. */
export interface Label {
  readonly key: string;
  readonly name: string;
  readonly place: string;
  readonly product: string;
  /** The amount of one draw, or the words of an order where no figure is worked out. */
  readonly amount: { readonly inWords: boolean; readonly text: string };
  /** The mark, where the scale is not in mL, and the drug in one draw. */
  readonly beside: string;
  readonly where: string;
  /** When it was worked out, and for which weight. */
  readonly foot: string;
  readonly lot: string;
  /** That the data is invented; empty where it is not. */
  readonly demo: string;
}

/** The labels of what is drawn up as of an instant: none for a dose that a gate stops. */
export const labelsOf = (drawUps: readonly DrawUp[], at: string, shelter: Pick<Shelter, 'demo'>): Label[] =>
  drawUps.filter(({ dose }) => !dose.stopped).map((one) => labelOf(one, at, shelter.demo));

function labelOf(one: DrawUp, at: string, demo: boolean): Label {
  const { animal, product, dose, lot } = one;
  const { drawn, inWords } = dose;
  const mark = drawn === null || drawn.scale === 'mL' ? '' : `${drawn.mark} ${drawn.scale}`;
  return {
    key: one.key,
    name: nameOf(animal),
    place: joined(' ', one.section?.name ?? '', animal.kennel),
    product: joined(' · ', product.name, courseText(one)),
    amount: { inWords: inWords !== null, text: inWords === null ? oneDrawText(dose) : inWordsOnLabel(inWords) },
    beside: joined(' ', mark, massOfOneDraw(dose)),
    where: joined(' · ', whereGiven(one), foodText(animal, one.schedule)),
    foot: say('drawup.label.foot', { at: { instant: at }, weight: dose.grams === null ? '' : { grams: dose.grams } }),
    lot: lot?.lotText ?? '',
    demo: demo ? say('drawup.label.demo') : '',
  };
}

const joined = (between: string, ...parts: readonly string[]): string =>
  parts.filter((part) => part !== '').join(between);

/** More signs than this do not fit on a label; part of an order is worse than none. */
const mostSigns = 70;
const inWordsOnLabel = (words: string): string =>
  words.length > mostSigns ? say('drawup.in-words.long') : say('drawup.in-words', { words });
