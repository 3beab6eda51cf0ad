import { ageRange } from '../../../core/animal/age-range.js';
import type { Animal } from '../../../core/animal/animal.js';
import { orderNamed } from '../../../core/animal/vet-order.js';
import { type CalendarDate, dayNumber } from '../../../core/calendar.js';
import { type Dose, doseOf } from '../../../core/dosing/dose.js';
import type { RecentDose } from '../../../core/dosing/dose-question.js';
import type { Product } from '../../../core/dosing/formulary.js';
import type { OpenedGate } from '../../../core/dosing/gate.js';
import type { OrderedAmount } from '../../../core/dosing/ordered.js';
import type { ScheduleId, SyringeId } from '../../../core/ids.js';
import type { Role } from '../../../core/people.js';
import { aboutConditions } from '../../../core/protocol/about-conditions.js';
import { orderNow } from '../../../core/protocol/vet-orders/order-now.js';
import { inputOf } from '../engine-input.js';
import type { Lot, Shelter } from '../shelter.js';
import { openedOnLine, orderOfSchedule } from './ordered.js';
import { weighingForDose } from './weight-for-dose.js';

/** What the animal has had and kept, as its history tells it. */
const givenBefore = (animal: Animal): RecentDose[] =>
  animal.history.flatMap((event) =>
    event.what === 'given' && event.substandard !== 'not-taken'
      ? [{ product: event.product, at: event.at, volume_ul: null }]
      : [],
  );

/**
 * Syringes that may be drawn with: those of which a box is on the shelf. While no box of syringes has ever been entered,
 * nobody counts them here and every syringe of the formulary is offered.
 */
export function syringesAtHand(shelter: Shelter): SyringeId[] {
  const all = shelter.formulary?.syringes.map((one) => one.id) ?? [];
  const boxes = [...shelter.lots.values()].flatMap((lot) => (lot.of.is === 'syringe' ? [{ lot, of: lot.of }] : []));
  if (boxes.length === 0) return all;
  return all.filter((id) => boxes.some(({ lot, of }) => of.syringe === id && lot.withdrawn === null && lot.pieces > 0));
}

/** The day of the time of an order that may be done now: yesterday's last one still is, a little after midnight. */
function dayOfLine(shelter: Shelter, animal: Animal, schedule: ScheduleId | null, now: string): CalendarDate | null {
  const order = orderNamed(animal, schedule);
  if (order === null) return null;
  return orderNow(inputOf(animal, shelter), order, shelter.protocol, now, shelter.zone).mayDo?.on ?? null;
}

/**
 * The dose of a product for one animal now, from its record and the signed formulary. Null when no formulary is signed.
 * `syringes` are those within reach; those in stock when left out.
 */
export function doseFor(
  shelter: Shelter,
  animal: Animal,
  product: Product,
  now: string,
  today: CalendarDate,
  more: {
    /** The line of the round or list that it is for: an order's line may say its own amount. Null: outside of any. */
    readonly schedule: ScheduleId | null;
    /** What an order says of the amount that is not written yet; by the order of the line when left out. */
    readonly ordered?: OrderedAmount;
    readonly lot?: Lot | null;
    readonly syringes?: readonly SyringeId[];
    readonly strengthRead?: string | null;
    readonly madeUp?: { readonly mg_per_ml: string; readonly at: string } | null;
    readonly dilution?: string | null;
    readonly role?: Role;
    /** Words that open gates for this animal. */
    readonly opened?: readonly OpenedGate[];
    /** Doses with their volumes; from the history without volumes when left out. */
    readonly recent?: readonly RecentDose[];
  },
): Dose | null {
  const { formulary } = shelter;
  if (formulary === null) return null;
  const own = orderOfSchedule(animal, more.schedule, dayOfLine(shelter, animal, more.schedule, now) ?? today);
  return doseOf({
    product,
    formulary,
    weighing: weighingForDose(animal),
    ageDays: ageRange(animal, today),
    today,
    now,
    syringes: more.syringes ?? syringesAtHand(shelter),
    recent: more.recent ?? givenBefore(animal),
    about: aboutConditions(inputOf(animal, shelter), dayNumber(today), dayNumber(today)),
    opened: openedOnLine(more.opened ?? [], own?.order ?? null, product.id),
    strengthRead: more.strengthRead ?? null,
    madeUp: more.madeUp ?? null,
    dilution: more.dilution ?? null,
    ordered: more.ordered ?? own?.amount ?? null,
    ...(more.role === undefined ? {} : { role: more.role }),
    lot: more.lot == null ? null : { expiresOn: more.lot.expires, withdrawn: more.lot.withdrawn !== null },
  });
}
