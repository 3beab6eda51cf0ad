import type { Dose } from '../core/dosing/dose.js';
import type { Product } from '../core/dosing/formulary.js';
import { rowFor } from '../core/dosing/label-weight.js';
import type { AnimalId } from '../core/ids.js';
import type { DueItem } from '../core/protocol/due.js';
import { give, notGiven } from '../log/commands/round.js';
import { withdrawRecord } from '../log/commands/shelter.js';
import type { BodyInput } from '../log/kinds/index.js';
import type { NotGivenReason } from '../log/kinds/treatment.js';
import { doseFor } from '../log/views/doses/dose.js';
import { weighingForDose } from '../log/views/doses/weight-for-dose.js';
import type { Lot, Shelter } from '../log/views/shelter.js';
import { theOne } from './journal.js';
import type { RoundInHand } from './round-in-hand.js';
import { animalId, animalNow, castOf } from './scene.js';
import { type Part, slipOf } from './slips.js';
import { expiredVial } from './stock.js';

/** Give one due product: the lot that expires first, the dose of the formulary, drawn to its mark. */
export function giveItem(team: RoundInHand, animal: AnimalId, item: DueItem, part: Part | null): void {
  const { scene, on, daysAgo, hand } = team;
  const { shelter } = scene.journal.world();
  const key = castOf(scene, animal)?.key ?? null;
  const at = team.pass(40, 75);
  const chosen = chooseLot(team, shelter, item, part === 'vaccine' && slipOf(key, daysAgo, 'expired-vial') !== null);
  if (chosen === null) {
    skip(team, animal, item, 'product-missing', '', at);
    return;
  }
  const { product, lot, expired } = chosen;
  // Nobody looked at the expiry day of the vial in the hand, so the dose is the one without a lot.
  const dose = doseFor(shelter, animalNow(scene, animal), product, at, on, {
    schedule: item.schedule,
    lot: expired ? null : lot,
  });
  const passing = part === 'worm' ? slipOf(key, daysAgo, 'stop-passed') : null;
  const stop = dose?.gates.find((gate) => gate.severity === 'stop') ?? null;
  if (dose === null || (stop !== null && passing === null)) {
    const reason = stop?.code.startsWith('weight') === true ? 'weight-missing' : 'veterinarian-said-no';
    skip(team, animal, item, reason, `The dose is stopped (${stop?.code ?? 'no dose'}).`, at);
    return;
  }
  const word =
    passing === null
      ? null
      : { gate: stop?.code ?? '', how: 'by-telephone' as const, reason: passing.reason, by: team.holder };
  const passed = word === null || word.gate === '' ? [] : [word];
  const body = { ...bodyOf(team, animal, item, product, lot, dose), passed };
  const more = part === 'flea' ? slipOf(key, daysAgo, 'other-amount') : null;
  const volume_ul = more === null || body.volume_ul === null ? body.volume_ul : body.volume_ul + more.more_ul;
  const outcome = part === 'worm' && slipOf(key, daysAgo, 'partly-taken') !== null ? 'partly-taken' : 'taken';
  const wrong = part === 'vaccine' ? slipOf(key, daysAgo, 'wrong-card') : null;
  if (wrong !== null) {
    // The look-alike's card was open; noticed at once, withdrawn, and entered where it belongs.
    const other = theOne(scene.journal.write(hand, give(animalId(scene, wrong.card), body, at)));
    const reason = `Given to ${castOf(scene, animal)?.name}, entered on the wrong card: both are black.`;
    scene.journal.write(hand, withdrawRecord(other, { reason }, team.pass(45, 60)));
  }
  scene.journal.write(hand, give(animal, { ...body, volume_ul, outcome }, at));
}

/** What was due and is not done, with its reason. */
export function skip(
  team: RoundInHand,
  animal: AnimalId,
  item: DueItem,
  reason: NotGivenReason,
  note: string,
  at: string,
): void {
  const body = { schedule: item.schedule, reason, note, round: team.round };
  team.scene.journal.write(team.hand, notGiven(animal, body, at));
}

interface Chosen {
  readonly product: Product;
  readonly lot: Lot;
  readonly expired: boolean;
}

function chooseLot(team: RoundInHand, shelter: Shelter, item: DueItem, fromExpired: boolean): Chosen | null {
  const products = item.products.flatMap((id) => shelter.formulary?.products.find((one) => one.id === id) ?? []);
  if (fromExpired) {
    const lot = [...shelter.lots.values()].find((one) => one.lotText === expiredVial.lotText);
    const product = products.find((one) => lot?.of.is === 'product' && one.id === lot.of.product);
    if (lot !== undefined && product !== undefined) return { product, lot, expired: true };
  }
  for (const product of products) {
    const lot = team.shelf.product(product.id);
    if (lot !== null) return { product, lot, expired: false };
  }
  return null;
}

type GivenBody = BodyInput<'treatment-given'>;

function bodyOf(team: RoundInHand, animal: AnimalId, item: DueItem, product: Product, lot: Lot, dose: Dose): GivenBody {
  const weighing = product.needsWeight ? weighingForDose(animalNow(team.scene, animal)) : null;
  const volume_ul = dose.total_ul;
  const syringe = dose.drawn?.syringe ?? null;
  return {
    schedule: item.schedule,
    product: product.id,
    lot: lot.id,
    volume_ul,
    planned_ul: volume_ul,
    pieces: dose.drawn === null ? piecesOf(product, dose.grams) : '',
    syringe,
    syringeLot: syringe === null ? null : (team.shelf.syringe(syringe)?.id ?? null),
    weight: weighing?.record ?? null,
    grams: weighing?.grams ?? null,
    route: product.route,
    site: product.site,
    protocol: item.protocol,
    round: team.round,
    note: item.asks === undefined || item.asks.length === 0 ? '' : 'Asked before; nothing in the way.',
  };
}

/** Tablets or tubes as the formulary writes them; empty when the product is measured by volume. */
function piecesOf({ dose: rule }: Product, grams: number | null): string {
  if (rule.by === 'fixed') return rule.pieces ?? '';
  if (rule.by !== 'bands' || grams === null) return '';
  return rowFor(rule.bands, grams)?.pieces ?? '';
}
