import { dayOfInstant } from '../../core/calendar.js';
import type { Dose } from '../../core/dosing/dose.js';
import type { BodySite } from '../../core/dosing/handling.js';
import { exactly } from '../../core/quantity/exact.js';
import { writeNumber, writePerKg, writeVolume } from '../../core/quantity/write.js';
import type { DrawUp } from '../../log/prepare/draw-ups.js';
import type { Shelter } from '../../log/views/shelter.js';
import { careOf } from '../../told/care.js';
import { marksLine, nameOf, placeSaid } from '../../told/names.js';
import { say } from '../../words/say.js';
import { courseText } from './amounts.js';
import { type Barrel, barrelOf } from './barrel.js';
import { massText } from './mass-text.js';

/** One draw-up as large as it is important: how much, to which mark, where it goes, and what to mind. */
export interface DrawUpCard {
  readonly name: string;
  readonly what: string;
  readonly place: string;
  readonly marks: string;
  readonly stops: readonly { readonly code: string; readonly name: string; readonly why: string }[];
  /** An order's own words, or how much is drawn; nothing of a dose that a gate stops. */
  readonly amount: { readonly is: 'in-words'; readonly words: string } | HowMuch | null;
  readonly site: BodySite | null;
  readonly product: string;
  readonly route: string;
  /** Empty where the product asks for none. */
  readonly needle: string;
  readonly lot: string;
  readonly made: string;
  /** What is to be minded and does not stop it: of the dose, and as the document words its care. */
  readonly notes: readonly string[];
  readonly care: readonly string[];
}

export interface HowMuch {
  readonly is: 'figure';
  /** Which dose of a course; empty when it is given once. */
  readonly course: string;
  /** A number with its unit, or how many pieces in words. */
  readonly volume: { readonly is: 'number' | 'pieces'; readonly text: string };
  /** Null for what is not drawn. */
  readonly drawn: Drawn | null;
  /** The drug, the dose per kg of what is drawn, and the weight that it is for. */
  readonly comesTo: string;
  /** What was worked out before it was rounded to a mark, and how exact one draw is; empty where it is not known. */
  readonly exact: string;
}

interface Drawn {
  readonly volume_ul: number;
  readonly mark: string;
  readonly scaleMark: string;
  /** How often, when the dose goes into more than one place; else empty. */
  readonly places: string;
  readonly barrel: Barrel | null;
}

/** The card of a draw-up as of an instant. */
export function drawUpCard(shelter: Shelter, drawUp: DrawUp, at: string): DrawUpCard {
  const { animal, product, dose, lot } = drawUp;
  const stops = dose.gates.filter(({ severity }) => severity === 'stop');
  const care = careOf(product, animal, dose.grams, dayOfInstant(at, shelter.zone));
  return {
    name: nameOf(animal),
    what: drawUp.name,
    place: say(placeSaid(shelter, animal.section, animal.kennel)),
    marks: marksLine(animal),
    stops: stops.map(({ code, why }) => ({ code, name: `${say(`gate.${code}`)}.`, why: say(why) })),
    amount: dose.inWords !== null ? { is: 'in-words', words: dose.inWords } : stops.length > 0 ? null : howMuch(drawUp),
    site: product.siteCode,
    product: product.name,
    route: product.site === '' ? product.route : `${product.route}, ${product.site}`,
    needle: product.needle === '' ? '' : say('drawup.needle', { needle: product.needle }),
    lot: lot === null ? say('drawup.no-lot') : say('drawup.lot', { lot: lot.lotText, expires: lot.expires ?? 'none' }),
    made: say('drawup.worked-out', { at: { instant: at } }),
    notes: dose.gates.filter(({ severity }) => severity !== 'stop').map(({ why }) => say(why)),
    care: [...care.hand, ...care.other],
  };
}

function howMuch(drawUp: DrawUp): HowMuch {
  const { dose, syringe } = drawUp;
  const { drawn } = dose;
  const comesTo = [
    massText(dose),
    dose.drawnMgPerKg === null ? '' : writePerKg(dose.drawnMgPerKg),
    dose.grams === null ? '' : say('drawup.for-weight', { weight: { grams: dose.grams } }),
  ];
  return {
    is: 'figure',
    course: courseText(drawUp),
    volume:
      drawn === null && dose.pieces !== null
        ? { is: 'pieces', text: say(dose.pieces) }
        : { is: 'number', text: writeVolume(drawn?.volume_ul ?? dose.exact_ul ?? 0) },
    drawn:
      drawn === null
        ? null
        : {
            volume_ul: drawn.volume_ul,
            mark: say('round.give.mark', { mark: drawn.mark, syringe: drawn.syringeName }),
            scaleMark: drawn.mark,
            places:
              dose.places === 1 || dose.total_ul === null
                ? ''
                : say('drawup.places', { places: dose.places, total: { microlitres: dose.total_ul } }),
            barrel: syringe === null ? null : barrelOf(syringe, drawn.volume_ul),
          },
    comesTo: comesTo.filter((part) => part !== '').join(' · '),
    exact: exactText(dose),
  };
}

function exactText({ measuring, unrounded_ul }: Dose): string {
  if (measuring === null || unrounded_ul === null) return '';
  return say('drawup.exact', {
    exact: `${writeNumber(exactly(unrounded_ul).div(1000), 5)}\u00a0mL`,
    percent: writeNumber(measuring.tolerancePercent, 0),
    combined: writeNumber(measuring.combinedPercent, 0),
  });
}
