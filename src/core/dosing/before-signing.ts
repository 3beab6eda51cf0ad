import { exactly } from '../quantity/exact.js';
import { type Said, said } from '../said.js';
import { perKgOf } from './amount.js';
import type { FormularyDocument, Product, Standing } from './formulary.js';
import { edgesOf } from './label-weight.js';
import { dilutionAddsUp } from './strength.js';

/** Something in the document that comes from memory: a person says of each by name that it was looked up. */
export interface ToConfirm {
  /** Stable key inside one version of the document. */
  readonly key: string;
  readonly what: Said;
}

/** Everything of a formulary that comes from memory, in the order of the document. Empty: nothing to confirm. */
export function toConfirm(formulary: FormularyDocument): ToConfirm[] {
  const all = formulary.products.flatMap(ofProduct);
  const add = (key: string, standing: Standing | undefined, what: Said): void => {
    if (standing === 'from-memory') all.push({ key, what });
  };
  for (const one of formulary.syringes) {
    add(`syringe ${one.id}`, one.standing, said('dose.confirm.syringe', { name: one.name }));
  }
  for (const one of formulary.kits) add(`kit ${one.id}`, one.standing, said('dose.confirm.kit', { name: one.name }));
  add('instrument', formulary.instrument?.standing, said('dose.confirm.instrument'));
  add('blood', formulary.blood?.standing, said('dose.confirm.blood'));
  for (const one of formulary.routeLimits) {
    add(`route ${one.route}`, one.standing, said('dose.confirm.route', { route: one.route }));
  }
  for (const one of formulary.spacings) {
    const ingredients = one.ingredients.join(', ');
    add(`spacing ${ingredients}`, one.standing, said('dose.confirm.spacing', { ingredients, days: one.days }));
  }
  for (const one of formulary.notThisWay) {
    const values = { ingredient: one.ingredient, why: one.why };
    add(`not this way ${one.ingredient}: ${one.why}`, one.standing, said('dose.confirm.not-this-way', values));
  }
  for (const one of formulary.mixes) add(`mix ${one.id}`, one.standing, said('dose.confirm.mix', { name: one.name }));
  return all;
}

function ofProduct(product: Product): ToConfirm[] {
  const { id, name } = product;
  const all: ToConfirm[] = [];
  if (product.standing === 'from-memory')
    all.push({ key: `product ${id}`, what: said('dose.confirm.product', { name }) });
  for (const figure of product.fromMemory) {
    all.push({ key: `product ${id}: ${figure}`, what: said('dose.confirm.figure', { name, figure }) });
  }
  const parts = [
    ['course', product.course?.standing],
    ['daily', product.perDay?.standing],
    ['place', product.perSite?.standing],
    ['fresh', product.makeUp?.standing],
    ['claims', product.claims?.standing],
  ] as const;
  for (const [part, standing] of parts) {
    if (standing !== 'from-memory') continue;
    all.push({ key: `product ${id} ${part}`, what: said('dose.confirm.part', { name, part }) });
  }
  for (const recipe of product.dilutions.filter((one) => one.standing === 'from-memory')) {
    all.push({
      key: `product ${id} recipe ${recipe.id}`,
      what: said('dose.confirm.recipe', { name, recipe: recipe.id }),
    });
  }
  for (const { words } of product.conditions.filter((one) => one.standing === 'from-memory')) {
    all.push({ key: `product ${id} condition ${words}`, what: said('dose.confirm.figure', { name, figure: words }) });
  }
  for (const twin of product.twins.filter((one) => one.standing === 'from-memory')) {
    const values = { name, strength: twin.mg_per_ml };
    all.push({ key: `product ${id} twin ${twin.mg_per_ml}`, what: said('dose.confirm.twin', values) });
  }
  return all;
}

/** What contradicts itself in a formulary, so that it cannot be signed as it stands. Empty: nothing. */
export function contradictions(formulary: FormularyDocument): Said[] {
  const faults: Said[] = [];
  const sources = new Set<string>(formulary.sources.map((one) => one.id));
  const seen = new Set<string>();
  for (const product of formulary.products) {
    const { name } = product;
    if (seen.has(product.id)) faults.push(said('dose.fault.twice', { id: product.id }));
    seen.add(product.id);
    if (!sources.has(product.source)) faults.push(said('dose.fault.source', { name, source: product.source }));
    for (const { source } of product.conditions) {
      if (!sources.has(source)) faults.push(said('dose.fault.source', { name, source }));
    }
    faults.push(...doseFaults(product));
    for (const recipe of product.dilutions) {
      if (dilutionAddsUp(recipe, product.ingredients[0]?.mg_per_ml ?? null)) continue;
      faults.push(said('dose.fault.recipe', { name, recipe: recipe.id }));
    }
  }
  const { marksInBand } = formulary;
  if (marksInBand !== null && !(exactly(marksInBand.over).lt(1) && exactly(marksInBand.under).gt(1))) {
    faults.push(said('dose.fault.marks-in-band'));
  }
  for (const { product } of formulary.standingOrders) {
    if (!seen.has(product)) faults.push(said('dose.fault.order', { id: product }));
  }
  return faults;
}

function doseFaults(product: Product): Said[] {
  const { name, dose, band } = product;
  const faults: Said[] = [];
  if (band !== null && exactly(band.low).gt(band.high)) faults.push(said('dose.fault.band', { name }));
  if (dose.by === 'mg-per-kg' || dose.by === 'mg-per-lb') {
    const inOrder = exactly(dose.low).lte(dose.usual) && exactly(dose.usual).lte(dose.high);
    if (!inOrder) faults.push(said('dose.fault.order-of-doses', { name }));
    const usual = perKgOf(dose.by, dose.usual);
    const inBand = band === null || (usual.gte(band.low) && usual.lte(band.high));
    if (!inBand) faults.push(said('dose.fault.usual-outside', { name }));
  }
  if (dose.by === 'fixed' && dose.g !== undefined && (product.ingredients[0]?.mg_per_g ?? null) === null) {
    faults.push(said('dose.fault.no-grams', { name }));
  }
  if (dose.by === 'bands') {
    const bands = dose.bands.map(edgesOf).sort((a, b) => a.from_g - b.from_g);
    const overlap = bands.some((one, index) => one.to_g <= one.from_g || one.from_g < (bands[index - 1]?.to_g ?? 0));
    if (overlap) faults.push(said('dose.fault.bands', { name }));
    if (dose.bands.some((one) => one.ml === undefined && one.pieces === undefined)) {
      faults.push(said('dose.fault.amount', { name }));
    }
  }
  if ((dose.by === 'bands' || dose.by === 'fixed') && isInMg(product) && product.stopAbove_mg_per_kg === null) {
    faults.push(said('dose.fault.no-end', { name }));
  }
  return faults;
}

/** Counted in mg, for a cat, so that a small animal may get too many per kg; a vaccine is one whole dose for every animal. */
const isInMg = ({ ingredients, species }: Product): boolean =>
  species.includes('cat') &&
  ingredients.some((one) => one.mg_per_ml !== null || one.mg_per_piece !== null || one.mg_per_g !== null);
