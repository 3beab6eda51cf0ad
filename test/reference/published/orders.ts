import { amountOrdered } from '../../../src/core/animal/order-amount.js';
import { OrderTerms, orderSchedule, type PlacedOrder } from '../../../src/core/animal/vet-order.js';
import { addDays, CalendarDate, instantAt } from '../../../src/core/calendar.js';
import { courseDays } from '../../../src/core/dosing/course.js';
import { type Dose, doseOf } from '../../../src/core/dosing/dose.js';
import type { Product } from '../../../src/core/dosing/formulary.js';
import { AnimalId, RecordId } from '../../../src/core/ids.js';
import type { ProtocolInput } from '../../../src/core/protocol/input.js';
import { evaluateOrders, forecastOrders } from '../../../src/core/protocol/vet-orders/order-forecast.js';
import { orderNow } from '../../../src/core/protocol/vet-orders/order-now.js';
import { timingSaid } from '../../../src/core/protocol/vet-orders/order-said.js';
import { exactly, plain } from '../../../src/core/quantity/exact.js';
import { writeOrder } from '../../../src/log/commands/order.js';
import { endSaid } from '../../../src/told/order-words.js';
import { cat, given as gave } from '../../support/protocol.js';
import type { Asks, Given } from './ask.js';
import { formulary, must, now, productOf, today, withProduct } from './product.js';

/** Orders of a veterinarian. The shelter's clock is UTC here; what is ordered is given as soon as it may be. */
const record = RecordId.parse('order-1');
const drops = 'doxycycline-10';
const order = (terms: object): OrderTerms =>
  OrderTerms.parse({
    name: 'As ordered',
    treat: { is: 'product', product: drops },
    starts: '2026-01-01',
    timing: { is: 'days', every: 1 },
    ends: { is: 'when-ended' },
    vet: 'vera',
    ...terms,
  });

/** What the question takes for granted of what is given, or of the answer. */
function same(is: string | undefined, meant: string): void {
  if (is !== meant) throw new Error(`it is ${is} and not ${meant}`);
}

/** Evenly over the day, so many times: the house sets the times. */
const timesADay = (n: number) => ({
  is: 'times',
  times: Array.from({ length: n }, (_, at) => `${String(Math.floor((24 / n) * at)).padStart(2, '0')}:00`),
});

/** Every time of an order that may be done, hour by hour over so many days, each done as soon as it may be. */
function doneUnder(terms: OrderTerms, days: number) {
  const placed: PlacedOrder = { record, terms, ended: null };
  const history: ProtocolInput['animal']['history'][number][] = [];
  const input = (): ProtocolInput => ({
    animal: { ...cat({ born: '2020-01-01', history }), orders: [placed] },
    formulary,
  });
  const done: { on: CalendarDate; at: string; wall: string }[] = [];
  for (let hour = 0; hour < days * 24; hour += 1) {
    const on = addDays(terms.starts, Math.floor(hour / 24));
    const wall = `${String(hour % 24).padStart(2, '0')}:00`;
    const at = instantAt(on, wall, 'UTC');
    const { mayDo } = orderNow(input(), placed, null, at, 'UTC');
    if (mayDo === null) continue;
    done.push({ on: mayDo.on, at: mayDo.at, wall });
    history.push({
      ...gave(drops, on, { schedule: orderSchedule(record) }),
      record: RecordId.parse(`dose-${hour}`),
      at,
      wall,
      dueAt: { on: mayDo.on, at: mayDo.at },
    } as (typeof history)[number]);
  }
  const end = addDays(terms.starts, days);
  const counted = evaluateOrders(input(), end).filter(({ status }) => status === 'valid').length;
  must(String(counted), String(done.length), 'the doses that count');
  return { done, ended: forecastOrders(input(), null, end)[0]?.status };
}

/** The dose by an order on a day, for a weight in kg. */
function doseBy(product: Product, kg: string, terms: OrderTerms, on: CalendarDate = terms.starts): Dose {
  return doseOf({
    product,
    formulary,
    weighing: { grams: exactly(kg).mul(1000).toNumber(), at: now, doubtful: false },
    ageDays: { youngest: 2000, oldest: 2000 },
    today,
    now,
    syringes: formulary.syringes.map(({ id }) => id),
    ordered: amountOrdered(terms, on),
  });
}
const mg = ({ exact_ug }: Dose): string | null => (exact_ug === null ? null : plain(exactly(exact_ug).div(1000)));
const ml = ({ unrounded_ul }: Dose): string | null =>
  unrounded_ul === null ? null : plain(exactly(unrounded_ul).div(1000));

/** A liquid of this strength of which only an order says how much. */
const liquid = (mg_per_ml: string, changes: object = {}): Product =>
  withProduct(drops, {
    ingredients: [{ ...productOf(drops).ingredients[0], mg_per_ml }],
    dose: { by: 'order' },
    band: null,
    stopAbove_mg_per_kg: null,
    least: null,
    course: null,
    ...changes,
  }).products.at(-1) as Product;

const steroidBand = (given: Given) => {
  const dose = { amount: given('mg_per_day'), unit: 'mg', per: 'day' };
  // 0.5 to 4 mg per kg a day, as the source says it; once a day.
  const answer = doseBy(liquid('5', { band: { low: '0.5', high: '4' } }), given('kg'), order({ dose }));
  return { mg_per_kg: answer.mgPerKg, inBand: !answer.gates.some(({ code }) => code === 'outside-band') };
};

/** The question that an order is asked about when it is written, or null; beside the orders that the animal has. */
function questionOf(terms: OrderTerms, running: readonly PlacedOrder[] = []): string | null {
  const shelter = { formulary, protocol: null } as unknown as Parameters<typeof writeOrder>[0];
  const vet = { id: terms.vet, licence: 'Invented 1' };
  const answer = writeOrder(shelter, vet, AnimalId.parse('a-1'), terms, now, null, running);
  return answer.ok ? null : answer.why.say;
}

/** An order as needed; its product is any. */
const needed = (leastHours: number, more: object = {}) =>
  order({ timing: { is: 'as-needed', reason: 'rib pain' }, leastHours, ...more });

/** Whether an order has a last day, and how often it comes on one day. */
const openEnd = (given: Given, starts = '2026-01-01') => {
  same(`${given('period')} ${given('unit')}`, '1 d');
  const terms = order({ starts, timing: timesADay(given.number('frequency')) });
  const placed: PlacedOrder = { record, terms, ended: null };
  const input: ProtocolInput = { animal: { ...cat({ born: '2020-01-01' }), orders: [placed] }, formulary };
  const stop = forecastOrders(input, null, CalendarDate.parse(starts))[0]?.latest ?? null;
  return {
    perDay: doneUnder(terms, 1).done.length,
    stop,
    openEnded: endSaid(terms).say === 'desk.order.ends.when-ended',
  };
};

export const orders: Asks = {
  'ORD-01': (given) => {
    const { perDay, stop } = openEnd(given);
    return { perDay, endKnown: stop !== null };
  },
  'ORD-09': (given) => {
    const [starts = ''] = given('start').split('T');
    const { stop, openEnded } = openEnd(given, starts);
    return { stop, openEnded };
  },
  'ORD-21': (given) => {
    const dose = { amount: given('high'), unit: 'pieces', per: 'time' };
    const { done } = doneUnder(needed(given.number('leastGapHours'), { dose }), 1);
    return { mostTabletsPer24h: plain(exactly(given('high')).mul(done.length)) };
  },
  'ORD-23': (given) => {
    const terms = needed(given.number('leastGapHours'));
    const at = instantAt(terms.starts, given('given'), 'UTC');
    const event = { ...gave(drops, terms.starts, { schedule: orderSchedule(record) }), at, wall: given('given') };
    const animal = {
      ...cat({ born: '2020-01-01', history: [event as never] }),
      orders: [{ record, terms, ended: null }],
    };
    const [placed] = animal.orders;
    if (placed === undefined) throw new Error('no order');
    const { notBefore } = orderNow({ animal, formulary }, placed, null, at, 'UTC');
    return { notBefore: notBefore?.slice(11, 16) ?? null };
  },
  'ORD-24': (given) => {
    const [, reason = ''] = given('text').split(' as needed for ');
    const terms = order({ timing: { is: 'as-needed', reason }, leastHours: 4 });
    const { with: values } = timingSaid(terms.timing);
    return {
      condition: values?.reason,
      hasCondition: !OrderTerms.safeParse({ ...terms, timing: { is: 'as-needed' } }).success,
    };
  },
  'ORD-25': (given) => {
    const dose = { amount: given('dose_mg'), unit: 'mg', per: 'time' };
    const terms = needed(given.number('leastGapHours'), {
      dose,
      mostADay: { amount: given('max_mg_per_day'), unit: 'mg' },
    });
    return {
      mostByInterval_mg: plain(exactly(given('dose_mg')).mul(doneUnder(terms, 1).done.length)),
      ceilingReached: questionOf(terms) !== 'due.order.most-never-reached',
    };
  },
  'ORD-04': (given) => {
    must(given('frequency'), '1', 'the frequency');
    same(given('unit'), 'h');
    const hours = { is: 'hours', every: given.number('period') };
    const { done } = doneUnder(order({ timing: hours, startsAt: '00:00' }), 1);
    return { per24h: done.length };
  },
  'ORD-07': (given) => {
    same(`${given('period')} ${given('unit')}`, '1 d');
    const days = given.number('boundsDays');
    const timing = timesADay(given.number('frequency'));
    return { doses: doneUnder(order({ timing, ends: { is: 'after-days', days } }), days + 3).done.length };
  },
  'ORD-08': (given) => {
    same(`${given('period')} ${given('unit')}`, '1 d');
    const days = given.number('boundsDays');
    const timing = timesADay(given.number('frequency'));
    return { doses: doneUnder(order({ timing, ends: { is: 'after-days', days } }), days + 3).done.length };
  },
  'ORD-11': (given) => {
    same(given('unit'), 'd');
    const terms = order({
      starts: given('start'),
      timing: { is: 'days', every: given.number('period') },
      ends: { is: 'after-doses', doses: given.number('count') },
    });
    const { done } = doneUnder(terms, 60);
    return { last: done.at(-1)?.on, doses: done.length };
  },
  'ORD-12': (given) => {
    const ends = { is: 'after-doses', doses: given.number('count') };
    const { done, ended } = doneUnder(order({ ends }), 5);
    same(ended, 'complete');
    return { doses: done.length };
  },
  'ORD-34': (given) => {
    const per = { unit: 'mg-per-kg', per: 'time' };
    // The first day and the days after it, as the claim says them.
    const terms = order({
      dose: { amount: '0.2', ...per },
      steps: [{ fromDay: 2, dose: { amount: '0.05', ...per } }],
    });
    const product = liquid(given('mg_per_ml'));
    const [first, next] = [0, 1].map((later) => doseBy(product, given('kg'), terms, addDays(terms.starts, later)));
    if (first === undefined || next === undefined) throw new Error('no dose');
    return { day1_mg: mg(first), day1_ml: ml(first), next_mg: mg(next), next_ml: ml(next) };
  },
  'ORD-35': (given) => {
    const ends = { is: 'after-days', days: given.number('days') };
    const { done } = doneUnder(order({ starts: given('start'), ends }), 10);
    return { last: done.at(-1)?.on, fifthDayAllowed: done.length > 4 };
  },
  'ORD-37': steroidBand,
  'ORD-38': steroidBand,
  'ORD-39': steroidBand,
  'ORD-40': (given) => {
    const first = exactly(given('first_mg'));
    const halved = (n: number) => ({ amount: plain(first.div(2 ** n)), unit: 'mg', per: 'time' });
    const stepDays = given.number('stepDays');
    const halvings = given.number('halvings');
    const terms = order({
      starts: given('start'),
      dose: halved(0),
      steps: Array.from({ length: halvings }, (_, n) => ({ fromDay: (n + 1) * stepDays + 1, dose: halved(n + 1) })),
    });
    const steps: [string, string | null][] = [];
    for (let day = 0; day < (halvings + 1) * stepDays; day += 1) {
      const on = addDays(terms.starts, day);
      const amount = mg(doseBy(liquid('5'), '4', terms, on));
      if (steps.at(-1)?.[1] !== amount) steps.push([on, amount]);
    }
    return { steps };
  },
  'ORD-42': (given) => {
    const n = given.number('n');
    const terms = order({ starts: given('start'), timing: { is: 'days', every: given.number('everyDays') } });
    return {
      dates: doneUnder(terms, 20)
        .done.slice(0, n)
        .map(({ on }) => on),
    };
  },
  'ORD-43': (given) => {
    const { course } = productOf('itraconazole-10');
    if (course === null) throw new Error('no course');
    const { days, doses } = courseDays(course);
    const start = CalendarDate.parse(given('start'));
    return {
      weeks: days.map(([from, to]) => [addDays(start, from - 1), addDays(start, to - 1)]),
      doses,
      spanDays: days.at(-1)?.[1],
    };
  },
  'ORD-44': (given) => {
    const dose = { amount: given('mg_per_kg_day'), unit: 'mg-per-kg', per: 'day' };
    const timing = { is: 'hours', every: given.number('everyHours') };
    const answer = doseBy(liquid('10'), given('kg'), order({ dose, timing, startsAt: '08:00' }));
    const { done } = doneUnder(order({ timing, startsAt: '00:00' }), 1);
    return { perDose_mg: mg(answer), perDay_mg: plain(exactly(mg(answer) ?? 0).mul(done.length)) };
  },
  'ORD-45': (given) => {
    const timing = { is: 'hours', every: given.number('everyHours') };
    const read = (per: string): Dose =>
      doseBy(
        liquid('10'),
        given('kg'),
        order({ dose: { amount: given('mg_per_kg_day'), unit: 'mg-per-kg', per }, timing, startsAt: '08:00' }),
      );
    return { right_mg: mg(read('day')), wrong_mg: mg(read('time')) };
  },
  'ORD-46': (given) => {
    const [starts = '', startsAt = ''] = given('start').split('T');
    const terms = order({
      starts,
      startsAt,
      timing: { is: 'hours', every: given.number('everyHours') },
      ends: { is: 'after-days', days: given.number('days') },
    });
    const { done } = doneUnder(terms, 10);
    const last = done.at(-1);
    return { doses: done.length, last: `${last?.on}T${last?.at}` };
  },
};
