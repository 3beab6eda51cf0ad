import { holdNamed, observationNamed } from '../../animal/named.js';
import { isOrdered, orderSchedule, type PlacedOrder } from '../../animal/vet-order.js';
import { type CalendarDate, type DayNumber, dayFromNumber, dayNumber } from '../../calendar.js';
import { conditionGate, foundSaid, isStop } from '../../dosing/conditions.js';
import { said } from '../../said.js';
import { foundAgainst } from '../about-conditions.js';
import type { ProtocolDocument } from '../document/document.js';
import type { Hold } from '../due.js';
import { known, type ProtocolInput } from '../input.js';
import { isLapsedOn, lapsedHold } from './lapse.js';

/** Done as often as ordered, or ended by a person, by a day. */
export const isOver = ({ terms, ended }: PlacedOrder, today: CalendarDate, done: number): boolean =>
  (ended !== null && ended.on <= today) || (terms.ends.is === 'after-doses' && done >= terms.ends.doses);

/** What stops an order by its own terms, seen on its first day or later and up to a day; null when nothing was. */
export function stoppedBy(input: ProtocolInput, { terms }: PlacedOrder, day: DayNumber) {
  for (const code of terms.stopWhen) {
    const seen = input.animal.observations.find(
      (one) => one.code === code && one.state === 'present' && one.on >= terms.starts && dayNumber(one.on) <= day,
    );
    if (seen !== undefined) return { code: observationNamed(code), on: { date: seen.on } };
  }
  return null;
}

/** A condition of its product that the order did not open, or not for that long. */
function conditionAgainst(input: ProtocolInput, { terms }: PlacedOrder, on: DayNumber, today: DayNumber): Hold | null {
  if (terms.treat.is !== 'product') return null;
  const stop = foundAgainst(input, terms.treat.product, on, today)
    .filter(isStop)
    .find(({ condition }) => {
      const code = conditionGate(condition);
      return !terms.opens.some(({ gate, until }) => gate === code && until >= dayFromNumber(on));
    });
  if (stop === undefined) return null;
  const until = stop.until === null ? null : dayFromNumber(stop.until);
  return { code: conditionGate(stop.condition), until, why: foundSaid(stop) };
}

/** What holds an order on a day: that no veterinarian gave it, or has countersigned it in time, a hold that a person set, or what its own terms wait for. */
export function holdOn(
  input: ProtocolInput,
  order: PlacedOrder,
  protocol: ProtocolDocument | null,
  on: DayNumber,
  today: DayNumber,
): Hold | null {
  if (!isOrdered(order)) {
    return {
      code: 'order-by-another',
      until: null,
      why: said('due.hold.order-by-another', { by: { person: order.terms.vet } }),
    };
  }
  if (isLapsedOn(order, protocol, today)) return lapsedHold(order, protocol);
  const id = orderSchedule(order.record);
  const date = dayFromNumber(on);
  const placed = input.animal.holds.find(
    (one) =>
      (one.schedules === 'all' || one.schedules.includes(id)) &&
      one.from <= date &&
      (one.until === null || one.until >= date),
  );
  if (placed !== undefined) {
    return { code: placed.code, until: placed.until, why: said('due.hold.placed', { what: holdNamed(placed) }) };
  }
  const against = conditionAgainst(input, order, on, today);
  if (against !== null) return against;
  for (const code of order.terms.holdWhen) {
    const { state, until } = known({ input, today }, code, on);
    if (state !== 'present') continue;
    return {
      code,
      until: until === null ? null : dayFromNumber(until),
      why: said('due.hold.order', { code: observationNamed(code) }),
    };
  }
  return null;
}
