import type { Animal } from '../core/animal/animal.js';
import { amountInWords } from '../core/animal/order-amount.js';
import { type OrderTerms, orderNamed } from '../core/animal/vet-order.js';
import type { ScheduleId } from '../core/ids.js';
import { dosesSaid, limitsSaid, timingSaid } from '../core/protocol/vet-orders/order-said.js';
import { type Said, type SayValue, said } from '../core/said.js';
import type { Told } from '../log/kinds/told.js';
import type { World } from '../log/views/world.js';
import { say } from '../words/say.js';
import { productName, scheduleName } from './names.js';

export function endSaid({ ends }: Pick<OrderTerms, 'ends'>): Said {
  switch (ends.is) {
    case 'after-days':
      return said('desk.order.ends.after-days', { n: ends.days });
    case 'after-doses':
      return said('desk.order.ends.after-doses', { n: ends.doses });
    case 'when-ended':
      return said('desk.order.ends.when-ended');
  }
}

export function treatSaid(world: World, { treat }: Pick<OrderTerms, 'treat'>): SayValue {
  switch (treat.is) {
    case 'product':
      return productName(world.shelter, treat.product);
    case 'schedule':
      return scheduleName(world.shelter, treat.schedule);
    case 'words':
      return treat.words;
  }
}

/** The dose of an order with what changes on later days, its words and whether with food, in one line; empty for none. */
export const amountText = (terms: OrderTerms): string =>
  [
    ...dosesSaid(terms).map((one) => say(one)),
    terms.meant ? say('order.dose.meant') : '',
    terms.amount,
    terms.chosenBy === null ? '' : say(`order.chosen-by.${terms.chosenBy}`),
    terms.route === null ? '' : say('order.route', { route: terms.route }),
    ...terms.opens.map(({ gate, reason, until }) =>
      say('order.opens', { what: say(`gate.${gate}`), reason, until: { date: until } }),
    ),
    terms.food === null ? '' : say(`due.order.${terms.food}`).replace(/\.$/, ''),
  ]
    .filter((part) => part !== '')
    .join('; ');

/** With food or without, of the order that a line stands for; empty where it does not matter, and for a line of the protocol. */
export function foodText(animal: Pick<Animal, 'orders'>, schedule: ScheduleId): string {
  const food = orderNamed(animal, schedule)?.terms.food ?? null;
  return food === null ? '' : say(`due.order.${food}`);
}

/** What is to be minded beside the amount of the order that a line stands for; empty where the words are the amount. */
export function mannerText(animal: Pick<Animal, 'orders'>, schedule: ScheduleId): string {
  const terms = orderNamed(animal, schedule)?.terms;
  if (terms === undefined || amountInWords(terms) !== null) return foodText(animal, schedule);
  return [foodText(animal, schedule), terms.amount].filter((part) => part !== '').join(' ');
}

/** When it is given, what changes on later days, and how near to each other and how often in a day it may be. */
export function rhythmSaid(order: OrderTerms): Said {
  const timing = timingSaid(order.timing);
  const later = dosesSaid(order).slice(1);
  const rhythm = later.length === 0 ? timing : said('order.dose.at-first', { timing, later: { list: later } });
  const limits = limitsSaid(order);
  return limits.length === 0 ? rhythm : said('order.dose.limited', { rhythm, limits: { list: limits } });
}

/** An order as the values of its sentence. */
export const orderValues = (world: World, order: OrderTerms, told: Told | null = null) => ({
  told: toldSaid(told),
  order: order.name,
  treat: treatSaid(world, order),
  amount: amountText({ ...order, steps: [] }) === '' ? '' : `, ${amountText({ ...order, steps: [] })}`,
  starts: { date: order.starts },
  timing: rhythmSaid(order),
  ends: endSaid(order),
  by: { person: order.vet },
  licence: { licenceOf: order.vet },
  why: order.why === '' ? '' : ` “${order.why}”`,
});

/** That something was told by telephone, by which laboratory, and whether it was read back; empty for what was not. */
export function toldSaid(told: Told | null): SayValue {
  if (told === null) return '';
  const from = told.from ?? '';
  return said('desk.told.by-telephone', {
    readBack: told.readBack ? 'yes' : 'no',
    from: from === '' ? '' : said('desk.told.telephone-from', { from }),
  });
}
