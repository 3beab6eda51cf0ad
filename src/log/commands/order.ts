import { amountElsewhere, leavesRangeOpen } from '../../core/animal/order-amount.js';
import type { OrderTerms, PlacedOrder } from '../../core/animal/vet-order.js';
import { mostNeverReached, OrderTerms as Terms } from '../../core/animal/vet-order.js';
import type { CalendarDate } from '../../core/calendar.js';
import type { AnimalId, RecordId, SectionId } from '../../core/ids.js';
import { withVariant } from '../../core/protocol/document/variant.js';
import { no, type Outcome, ok, type Said, said } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import type { Told } from '../kinds/told.js';
import { type Draft, draft } from '../record.js';
import type { KnownPerson, Shelter } from '../views/shelter.js';

type At = string;
const of = (animal: AnimalId): string => `animal:${animal}`;

/** What a veterinarian orders; who that is comes from the person. */
export type NewOrder = Omit<BodyInput<'order-written'>['order'], 'vet'>;

/** Who has a licence is known beside the records. */
type Licensed = Pick<KnownPerson, 'id' | 'licence'>;

/**
 * Only a person with a licence on record orders. `told`: by telephone, and somebody else writes it down; then it is the
 * veterinarian's record all the same, and waits for their countersignature.
 */
export function writeOrder(
  shelter: Shelter,
  person: Licensed,
  animal: AnimalId,
  wanted: NewOrder,
  at: At,
  told: Told | null = null,
  /** The orders that the animal has. */
  running: readonly PlacedOrder[] = [],
): Outcome<Draft[]> {
  if (person.licence === '') return no('due.order.needs-licence', { person: { person: person.id } });
  const order = { ...wanted, vet: person.id };
  const read = Terms.safeParse(order);
  if (!read.success) return no('due.order.malformed', { detail: read.error.issues[0]?.message ?? '' });
  if (told !== null && !told.readBack) return no('due.order.needs-read-back');
  if (told !== null && isControlled(shelter, read.data)) return no('due.order.controlled-by-telephone');
  const missing = nothingToGive(shelter, read.data);
  if (missing !== null) return no('due.order.unknown', { what: missing });
  const unsaid = amountNotSaid(shelter, read.data) ?? askedAbout(read.data, running);
  if (unsaid !== null) return { ok: false, why: unsaid };
  const [written] = [draft('order-written', of(animal), { order, told }, at)];
  return ok([told === null ? written : { ...written, by: person.id }]);
}

/** The question about the amount: it stands in another field, or only the order could say it. Null when there is none. */
function amountNotSaid(shelter: Shelter, terms: OrderTerms): Said | null {
  const { treat, amount } = terms;
  const elsewhere = amountElsewhere(terms);
  if (elsewhere.length > 0) {
    return said('due.order.amount-elsewhere', {
      fields: { list: elsewhere.map((field) => said(`due.order.field.${field}`)) },
    });
  }
  if (treat.is === 'words' || terms.dose !== null || amount.trim() !== '') return null;
  const products = shelter.formulary?.products ?? [];
  const classes = shelter.protocol?.schedules.find((one) => treat.is === 'schedule' && one.id === treat.schedule);
  const given = products.filter((one) =>
    treat.is === 'product'
      ? one.id === treat.product
      : one.classes.some((name) => classes?.satisfiedBy.includes(name) === true),
  );
  const [first] = given;
  if (first === undefined || given.some((one) => one.dose.by !== 'order')) return null;
  return said('due.order.needs-amount', { product: first.name });
}

/** What an order leaves open or says in two ways, to be asked and never guessed; null when there is nothing. */
function askedAbout(terms: OrderTerms, running: readonly PlacedOrder[]): Said | null {
  if (leavesRangeOpen(terms)) return said('due.order.range-open');
  const never = mostNeverReached(terms);
  if (never !== null) return said('due.order.most-never-reached', { times: never.times, most: never.most });
  const { timing } = terms;
  if (timing.is !== 'as-needed') return null;
  const plain = (text: string): string => text.trim().toLowerCase();
  const twin = running.find(
    ({ ended, terms: { timing: other } }) =>
      ended === null &&
      other.is === 'as-needed' &&
      other.turn === timing.turn &&
      plain(other.reason) === plain(timing.reason),
  );
  return twin === undefined ? null : said('due.order.which-first', { other: twin.terms.name });
}

/** Whether it is, or could be, a drug that the law keeps under control: those are never ordered by telephone. */
function isControlled(shelter: Shelter, { treat }: OrderTerms): boolean {
  const products = shelter.formulary?.products ?? [];
  const classes = shelter.protocol?.schedules.find((one) => treat.is === 'schedule' && one.id === treat.schedule);
  return products.some(
    (one) =>
      one.controlled &&
      (treat.is === 'product'
        ? one.id === treat.product
        : one.classes.some((name) => classes?.satisfiedBy.includes(name) === true)),
  );
}

/** A product or schedule that no signed document has; null when there is one, or the order is in words. */
function nothingToGive(shelter: Shelter, { treat }: OrderTerms): string | null {
  switch (treat.is) {
    case 'product':
      return shelter.formulary?.products.some((one) => one.id === treat.product) === true ? null : treat.product;
    case 'schedule':
      return shelter.protocol?.schedules.some((one) => one.id === treat.schedule) === true ? null : treat.schedule;
    case 'words':
      return null;
  }
}

/** The veterinarian countersigns an order that was written down in their name, or says in words that it is not theirs. */
export function countersignOrder(
  person: Pick<Licensed, 'id'>,
  animal: AnimalId,
  order: PlacedOrder,
  answer: Omit<BodyInput<'order-countersigned'>, 'order'>,
  at: At,
): Outcome<Draft[]> {
  if (order.written === undefined || person.id !== order.written.by)
    return no('order.countersign.others', { by: { person: order.terms.vet } });
  if (answer.says === 'not-mine' && (answer.note ?? '').trim() === '') return no('order.countersign.needs-words');
  return ok([draft('order-countersigned', of(animal), { order: order.record, ...answer }, at)]);
}

/** End an order from a day on, with the reason. */
export const endOrder = (animal: AnimalId, order: RecordId, on: CalendarDate, why: string, at: At): Draft[] => [
  draft('order-ended', of(animal), { order, on, why }, at),
];

/** Switch a variant of the signed protocol on for a section or the whole shelter, or back to routine with null. */
export function switchVariant(
  shelter: Shelter,
  person: Licensed,
  wanted: { readonly variant: string | null; readonly section: SectionId | null; readonly why: string },
  at: At,
): Outcome<Draft[]> {
  if (person.licence === '') return no('due.order.needs-licence', { person: { person: person.id } });
  const { variant } = wanted;
  // One whose values do not fit the protocol would silently leave the routine ones in force.
  const known = variant === null || (shelter.protocol !== null && withVariant(shelter.protocol, variant) !== null);
  if (!known) return no('due.order.unknown', { what: variant ?? '' });
  const body = { ...wanted, vet: person.id };
  return ok([draft('variant-switched', `shelter:${shelter.id ?? 'here'}`, body, at)]);
}
