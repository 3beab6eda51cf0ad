import type { Animal } from '../../../core/animal/animal.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { derived } from '../../../core/derived.js';
import type { SectionId } from '../../../core/ids.js';
import type { ProtocolDocument, Schedule } from '../../../core/protocol/document/document.js';
import { withVariant } from '../../../core/protocol/document/variant.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { evaluate, evaluatedEarly } from '../../../core/protocol/engine/evaluate.js';
import { forecastOf } from '../../../core/protocol/engine/forecast.js';
import { inOrderOf, seenBy, sightOf } from '../../../core/protocol/engine/sight.js';
import type { Evaluated } from '../../../core/protocol/evaluated.js';
import type { ProtocolInput } from '../../../core/protocol/input.js';
import { forecastOrders } from '../../../core/protocol/vet-orders/order-forecast.js';
import { type OrderNow, orderNow } from '../../../core/protocol/vet-orders/order-now.js';
import { inputOf } from '../engine-input.js';
import type { Ground } from '../ground.js';

/** The variant that is switched on where an animal is: its section's, else the whole shelter's; null for routine. */
export function variantFor(ground: Ground, section: SectionId | null): string | null {
  const switched = (section === null ? undefined : ground.variants.get(section)) ?? ground.variants.get('all');
  return switched?.variant ?? null;
}

/** The signed protocol with the values that are in force in a section. */
export function protocolFor(ground: Ground, section: SectionId | null): ProtocolDocument | null {
  const { protocol } = ground;
  const variant = variantFor(ground, section);
  if (protocol === null || variant === null) return protocol;
  return withVariant(protocol, variant) ?? protocol;
}

/** What is due to one animal: by the signed protocol, and by its orders; nothing for an animal that has left. */
export function dueOf(animal: Animal, ground: Ground, today: CalendarDate): DueItem[] {
  if (animal.left !== null) return [];
  const protocol = protocolFor(ground, animal.section);
  const input = inputOf(animal, ground);
  const orders = forecastOrders(input, protocol, today);
  if (protocol === null) return orders;
  const variant = protocol === ground.protocol ? null : variantFor(ground, animal.section);
  const { weighed, unweighed } = sightOf(protocol, input.formulary);
  const items = [
    ...itemsOf(seenBy(protocol, input, true), protocol, weighed, variant, today),
    ...itemsOf(seenBy(protocol, input, false), protocol, unweighed, variant, today),
  ];
  return [...inOrderOf(protocol, items), ...orders.map((item) => underVariant(item, variant))];
}

/** Worked out anew only for schedules that look at what has changed. */
const itemsOf = derived(
  (
    input: ProtocolInput,
    protocol: ProtocolDocument,
    schedules: readonly Schedule[],
    variant: string | null,
    today: CalendarDate,
  ): readonly DueItem[] => {
    return forecastOf(input, protocol, schedules, today).map((item) => underVariant(item, variant));
  },
);

const underVariant = (item: DueItem, variant: string | null): DueItem =>
  variant === null ? item : { ...item, protocol: { ...item.protocol, variant } };

/** What each past treatment, test, chip and weighing was worth, by the signed protocol. */
export function worthOf(animal: Animal, ground: Ground, today: CalendarDate): Evaluated[] {
  const protocol = protocolFor(ground, animal.section);
  return protocol === null ? [] : evaluate(inputOf(animal, ground), protocol, today);
}

/** Doses that came before they could count. */
export function tooEarly(animal: Animal, ground: Ground, today: CalendarDate): readonly Evaluated[] {
  const protocol = protocolFor(ground, animal.section);
  if (protocol === null) return [];
  const input = inputOf(animal, ground);
  const { weighed, unweighed } = sightOf(protocol, input.formulary);
  const early = [
    ...earlyOf(seenBy(protocol, input, true), protocol, weighed, today),
    ...earlyOf(seenBy(protocol, input, false), protocol, unweighed, today),
  ];
  return early.length === 0 ? early : inOrderOf(protocol, early);
}

const earlyOf = derived(evaluatedEarly);

/** How each order of an animal stands at an instant: which one time may be done now, and what was missed. */
export const ordersNow = (animal: Animal, ground: Ground, now: string): ReadonlyMap<string, OrderNow> =>
  new Map(
    animal.orders.map((order) => [
      order.record,
      orderNow(inputOf(animal, ground), order, ground.protocol, now, ground.zone),
    ]),
  );
