import type { Decimal } from 'decimal.js';
import { derived } from '../../derived.js';
import type { SyringeId } from '../../ids.js';
import { above, exactly, nearly } from '../../quantity/exact.js';
import { writeNumber } from '../../quantity/write.js';
import { said } from '../../said.js';
import type { DoseQuestion } from '../dose-question.js';
import { type Drawn, drawUp, floorAt, volumeText } from '../draw-up.js';
import type { Product, Syringe, VolumeFloor } from '../formulary.js';
import { type Gate, gate } from '../gate.js';
import { type Measuring, measuringOf } from '../instrument.js';
import { placesFor, siteLimit } from '../split.js';
import { markInBand } from './mark-in-band.js';

/** What is drawn, and how exact that is. */
export interface Drawing {
  /** One draw; with `places` above 1 it is drawn so many times, once for each place. */
  readonly drawn: Drawn | null;
  readonly places: number;
  readonly measuring: Measuring | null;
  readonly gates: readonly Gate[];
}

/** Draw an exact volume of a product with the syringes at hand: floors, places, mark, tolerance. */
export function draw(question: DoseQuestion, ul: Decimal, grams: number | null, strength: string | null): Drawing {
  const { product, formulary, syringes } = question;
  const gates: Gate[] = [];
  const limit = siteLimit(product, formulary, grams);
  let places = 1;
  if (limit !== null && above(ul, limit.good_ul ?? limit.most_ul)) {
    const values = { product: product.name, volume: volumeText(ul), most: volumeText(limit.most_ul) };
    if (limit.own) {
      places = placesFor(ul, limit.most_ul);
      if (places > limit.sites) {
        const why = said('dose.gate.too-much-for-sites', { ...values, places: limit.sites });
        return { drawn: null, places, measuring: null, gates: [gate('too-much-for-sites', 'stop', why)] };
      }
      gates.push(gate('much-for-one-site', 'note', said('dose.gate.split', { ...values, places })));
    } else {
      const over = above(ul, limit.most_ul);
      const why = said(over ? 'dose.gate.much-for-site' : 'dose.gate.large-for-site', values);
      gates.push(gate('much-for-one-site', over ? 'second-person' : 'note', why));
    }
  }
  const part = places === 1 ? ul : ul.div(places);
  const exactFloor = floorAt(part, formulary.volumeFloors);
  const atHand = within(formulary.syringes, syringes);
  const ceiling = mayBind(product, grams, ul, strength) ? ceilingOf(product, grams, ul, strength) : null;
  const drawing = drawUp(
    part,
    {
      route: product.route,
      rounding: product.rounding,
      tolerancePercent: product.tolerancePercent,
      ceiling_ul: partCeiling(ceiling, places, limit?.own === true ? limit.most_ul : null),
      floor_ul: leastOf(product, grams, ul, strength)?.div(places) ?? null,
      maxMark_ul: exactFloor?.maxMark_ul ?? null,
    },
    atHand,
    formulary.syringes,
  );
  const mostAtPlace = limit?.own === true ? limit.most_ul : null;
  // A syringe that measures it within the tolerance is fetched first; only where there is none may a mark be further off.
  const inBand =
    drawing.ok || drawing.wouldDo.length > 0 || exactFloor?.severity === 'stop'
      ? null
      : markInBand({ part, places, grams, strength, mostAtPlace }, question, atHand);
  const drawn = drawing.ok ? drawing.drawn : (inBand?.drawn ?? null);
  // What is measured is what is drawn: where that is not the exact volume, its own floor counts.
  const floor = inBand === null ? exactFloor : floorAt(inBand.drawn.volume_ul, formulary.volumeFloors);
  // The figure that is drawn is the one that is said; without one, or where it is too small, the exact one.
  const said_ul = drawn !== null && floor?.severity !== 'stop' ? exactly(drawn.volume_ul) : part;
  if (floor !== null) gates.push(floorGate(floor, said_ul));
  if (drawn === null) {
    const why = drawing.ok ? [] : [gate('no-syringe', 'stop', drawing.why)];
    return { drawn: null, places, measuring: null, gates: [...gates, ...why] };
  }
  if (inBand !== null) gates.push(inBand.gate);
  const syringe = atHand.find((one) => one.id === drawn.syringe);
  const measuring = syringe === undefined ? null : measuringOf(drawn.volume_ul, part, syringe, formulary.instrument);
  const rinse = measuring === null ? null : rinseGate(measuring, drawn, syringe);
  return { drawn, places, measuring, gates: rinse === null ? gates : [...gates, rinse] };
}

/** Syringes of the formulary that are within reach. */
const within = derived((all: readonly Syringe[], ids: readonly SyringeId[]): readonly Syringe[] =>
  all.filter((syringe) => ids.includes(syringe.id)),
);

/** Rinsing or drawing back twice the dose in is pointed out before anybody does it. */
function rinseGate(measuring: Measuring, drawn: Drawn, syringe: Syringe | undefined): Gate | null {
  if (syringe === undefined || exactly(measuring.rinseTimes).lt(2)) return null;
  const why = said('dose.gate.rinse', {
    syringe: syringe.name,
    dead: { microlitres: measuring.deadSpace_ul },
    times: writeNumber(measuring.rinseTimes, 1),
    volume: { microlitres: drawn.volume_ul },
  });
  return gate('rinse-would-add', 'note', why);
}

const floorWords = {
  note: 'dose.gate.small-note',
  'second-person': 'dose.gate.small-second',
  stop: 'dose.gate.small-stop',
} as const;

function floorGate(floor: VolumeFloor, ul: Decimal): Gate {
  const values = { volume: volumeText(ul), floor: { microlitres: floor.below_ul } };
  return gate('small-volume', floor.severity, said(floorWords[floor.severity], values));
}

/**
 * False when the end of the band lies so far above the volume that no mark within the tolerance can reach it. Doubles
 * are enough: it only saves work, and whatever is near is looked at exactly.
 */
function mayBind(product: Product, grams: number | null, ul: Decimal, strength: string | null): boolean {
  if (product.band === null || strength === null || grams === null) return false;
  const ceiling = (Number(product.band.high) * grams) / Number(strength);
  return ceiling < nearly(ul) * (1 + Number(product.tolerancePercent) / 100) * 1.01;
}

/** Most microlitres that stay inside the band; an exact volume already above it is its own ceiling. */
function ceilingOf(product: Product, grams: number | null, ul: Decimal, strength: string | null): Decimal | null {
  if (product.band === null || strength === null || grams === null) return null;
  const ceiling = exactly(product.band.high).mul(grams).div(strength);
  return above(ul, ceiling) ? ul : ceiling;
}

/**
 * Least microlitres that stay inside the band; null where rounding cannot reach so low, and for an exact volume that is
 * already under it (that has its own gate).
 */
function leastOf(product: Product, grams: number | null, ul: Decimal, strength: string | null): Decimal | null {
  if (product.band === null || strength === null || grams === null) return null;
  const about = (Number(product.band.low) * grams) / Number(strength);
  if (about < nearly(ul) * (1 - Number(product.tolerancePercent) / 100) * 0.99) return null;
  const least = exactly(product.band.low).mul(grams).div(strength);
  return above(least, ul) ? null : least;
}

function partCeiling(ceiling: Decimal | null, places: number, most_ul: Decimal | null): Decimal | null {
  const share = ceiling === null || places === 1 ? ceiling : ceiling.div(places);
  if (share === null) return most_ul;
  return most_ul === null || share.lt(most_ul) ? share : most_ul;
}

/** Recipes of the signed document that would make the volume large enough to measure with what is at hand. */
export function dilutionsThatHelp(question: DoseQuestion, ug: Decimal | null): readonly string[] {
  if (ug === null || question.dilution != null) return [];
  const { product, weighing } = question;
  return product.dilutions
    .filter((recipe) => {
      const drawing = draw(question, ug.div(recipe.gives_mg_per_ml), weighing?.grams ?? null, recipe.gives_mg_per_ml);
      return drawing.drawn !== null && !drawing.gates.some((one) => one.severity === 'stop');
    })
    .map((recipe) => recipe.id);
}
