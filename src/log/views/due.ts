import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import type { SectionId } from '../../core/ids.js';
import type { ProtocolDocument } from '../../core/protocol/document.js';
import type { DueItem } from '../../core/protocol/due.js';
import { evaluate } from '../../core/protocol/evaluate.js';
import type { Evaluated } from '../../core/protocol/evaluated.js';
import { forecast } from '../../core/protocol/forecast.js';
import type { ProtocolInput } from '../../core/protocol/input.js';
import { forecastOrders } from '../../core/protocol/order-forecast.js';
import { type OrderNow, orderNow } from '../../core/protocol/order-now.js';
import { withVariant } from '../../core/protocol/variant.js';
import { type Shelter, sectionOf } from './shelter.js';

const inputOf = (animal: Animal, shelter: Shelter): ProtocolInput => ({
  animal,
  rank: sectionOf(shelter, animal.section)?.rank ?? null,
  formulary: shelter.formulary,
  formerFormularies: formersOf(shelter),
});

type Formers = NonNullable<ProtocolInput['formerFormularies']>;
const formers = new WeakMap<Shelter['formularies'], Formers>();

/** Newest first; made once for each list. */
function formersOf({ formularies }: Shelter): Formers {
  const before = formers.get(formularies);
  if (before !== undefined) return before;
  const made = formularies.map((filed) => filed.document).toReversed();
  formers.set(formularies, made);
  return made;
}

/** The variant that is switched on where an animal is: its section's, else the whole shelter's; null for routine. */
export function variantFor(shelter: Shelter, section: SectionId | null): string | null {
  const switched = (section === null ? undefined : shelter.variants.get(section)) ?? shelter.variants.get('all');
  return switched?.variant ?? null;
}

/** The signed protocol with the values that are in force in a section. */
export function protocolFor(shelter: Shelter, section: SectionId | null): ProtocolDocument | null {
  const { protocol } = shelter;
  const variant = variantFor(shelter, section);
  if (protocol === null || variant === null) return protocol;
  return withVariant(protocol, variant) ?? protocol;
}

/** What is due to one animal: by the signed protocol, and by its orders; nothing for an animal that has left. */
export function dueOf(animal: Animal, shelter: Shelter, today: CalendarDate): DueItem[] {
  if (animal.left !== null) return [];
  const protocol = protocolFor(shelter, animal.section);
  if (protocol === null) return forecastOrders(inputOf(animal, shelter), null, today);
  const items = forecast(inputOf(animal, shelter), protocol, today);
  const variant = protocol === shelter.protocol ? null : variantFor(shelter, animal.section);
  return variant === null ? items : items.map((item) => ({ ...item, protocol: { ...item.protocol, variant } }));
}

/** What each past treatment, test, chip and weighing was worth, by the signed protocol. */
export function worthOf(animal: Animal, shelter: Shelter, today: CalendarDate): Evaluated[] {
  const protocol = protocolFor(shelter, animal.section);
  return protocol === null ? [] : evaluate(inputOf(animal, shelter), protocol, today);
}

/** Doses that came before they could count. */
export const tooEarly = (animal: Animal, shelter: Shelter, today: CalendarDate): Evaluated[] =>
  worthOf(animal, shelter, today).filter((one) => one.status === 'not-valid' && one.validFrom !== null);

/** How each order of an animal stands at an instant: which one time may be done now, and what was missed. */
export const ordersNow = (animal: Animal, shelter: Shelter, now: string): ReadonlyMap<string, OrderNow> =>
  new Map(
    animal.orders.map((order) => [
      order.record,
      orderNow(inputOf(animal, shelter), order, shelter.protocol, now, shelter.zone),
    ]),
  );
