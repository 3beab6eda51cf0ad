import type { Animal } from '../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import { asksForWeight } from '../../core/dosing/amount.js';
import type { KitType, Product } from '../../core/dosing/formulary.js';
import type { AnimalId, ScheduleId, SectionId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { type Cart, cartFor, type Need } from '../../core/round/cart.js';
import { type Said, said } from '../../core/said.js';
import { doseFor, weightUsable } from './dose.js';
import { groupOf } from './group.js';
import { lotUse } from './lots.js';
import { readySyringesLeft } from './ready-syringes.js';
import { visitOrderOf } from './schedules.js';
import type { Lot, Section } from './shelter.js';
import { whyNoDocuments } from './shelter.js';
import { byPlace, dueIn, inCare, type World } from './world.js';

/** One animal of the round with what is due to it, in the order of one visit. */
export interface PreparedAnimal {
  readonly animal: Animal;
  readonly due: readonly DueItem[];
  /** Due, but not now: held, with the reason. */
  readonly waiting: readonly DueItem[];
  /** Weighed before anything else: a dose goes by weight, or waits for one, and the weight on record may not be used. */
  readonly weighFirst: boolean;
}

export interface PreparedSection {
  readonly section: Section;
  readonly animals: readonly PreparedAnimal[];
}

export interface Preparation {
  readonly on: CalendarDate;
  readonly sections: readonly PreparedSection[];
  /**
   * Animals whose weight is missing, doubtful or too old to dose on, and that are due something by weight or are kept
   * waiting for having been too light.
   */
  readonly weighFirst: readonly AnimalId[];
  readonly cart: Cart;
  /** Lots to take, first-expiring first, by product and kit. */
  readonly lots: readonly LotOffer[];
  /** What is missing or in the way, as sentences. */
  readonly problems: readonly Said[];
}

export interface LotOffer {
  readonly lot: Lot;
  readonly left: number;
}

/** What a round over some sections would be, now. Sections are put in infection order whatever order they come in. */
export function prepareRound(world: World, wanted: readonly SectionId[], now: string): Preparation {
  const { shelter } = world;
  const today = dayOfInstant(now, shelter.zone);
  const animals = inCare(world).sort(byPlace(shelter));
  const sections = shelter.sections
    .filter((section) => wanted.includes(section.id) && !section.closed)
    .map((section): PreparedSection => {
      const here = animals.filter((animal) => animal.section === section.id);
      return { section, animals: here.map((animal) => prepareAnimal(world, animal, now, today)).filter(hasSomething) };
    });
  const met = sections.flatMap((section) => section.animals);
  const weighFirst = met.filter((one) => one.weighFirst).map(({ animal }) => animal.id);
  const needs = met.flatMap(({ animal, due }) => {
    const own = due.flatMap((item) => needOf(world, animal, item, now, today));
    // One draw serves all tests of an animal.
    const first = own.findIndex((need) => need.is === 'test');
    return own.map((need, i): Need => (need.is === 'test' && i > first ? { ...need, sameDraw: true } : need));
  });
  needs.push(...weighFirst.map((): Need => ({ is: 'weighing' })));
  const cart = cartFor(
    needs,
    sections
      .filter((section) => section.animals.length > 0)
      .map(({ section, animals: here }) => ({
        ...section,
        groups: new Set(here.map(({ animal }) => groupOf(animal))).size,
      })),
    shelter.formulary ?? { products: [], syringes: [], kits: [] },
    2,
  );
  return {
    on: today,
    sections,
    weighFirst,
    cart,
    lots: lotsFor(world, cart, today),
    problems: problemsOf(world, cart, today),
  };
}

function prepareAnimal(world: World, animal: Animal, now: string, today: CalendarDate): PreparedAnimal {
  const items = [...dueIn(world, animal, today)].sort(
    (a, b) =>
      visitOrderOf(world.shelter, a.schedule) - visitOrderOf(world.shelter, b.schedule) ||
      (a.schedule < b.schedule ? -1 : 1),
  );
  const due = items.filter((item) => item.status === 'due' || item.status === 'overdue');
  const waiting = items.filter((item) => item.status === 'on-hold');
  return { animal, due, waiting, weighFirst: weighedFirst(world, animal, [...due, ...waiting], now, today) };
}

/**
 * Whether an animal is weighed before anything else for these items: one of them goes by weight, or is held because it was
 * too light, and the weight on record may not be used. The one answer for desk, round and command line.
 */
export function weighedFirst(
  world: World,
  animal: Animal,
  items: readonly DueItem[],
  now: string,
  today: CalendarDate,
): boolean {
  if (weightUsable(world.shelter, animal, now, today)) return false;
  return items.some((item) =>
    item.status === 'on-hold'
      ? item.hold?.code === 'under-weight'
      : item.action === 'give' && goesByWeight(world, animal, item),
  );
}

/** The schedule by which animals are weighed here; null when the protocol has none. */
export const weighingSchedule = (world: World): ScheduleId | null =>
  world.shelter.protocol?.schedules.find((schedule) => schedule.action === 'weigh')?.id ?? null;

/** What is done to an animal on the round: what is due, and the weighing that has to come before it. */
export function schedulesOf(world: World, { due, weighFirst }: PreparedAnimal): ScheduleId[] {
  const weighing = weighFirst && !due.some((item) => item.action === 'weigh') ? weighingSchedule(world) : null;
  return [...(weighing === null ? [] : [weighing]), ...due.map((item) => item.schedule)];
}

/** Everything that the round is to do, animal by animal in the order of meeting. */
export const linesOfRound = (world: World, { sections }: Preparation) =>
  sections.flatMap(({ animals }) =>
    animals.flatMap((one) => {
      const schedules = schedulesOf(world, one);
      return schedules.length === 0 ? [] : [{ animal: one.animal.id, schedules }];
    }),
  );

const hasSomething = ({ due, waiting }: PreparedAnimal): boolean => due.length + waiting.length > 0;

function goesByWeight(world: World, animal: Animal, item: DueItem): boolean {
  const product = productFor(world, item);
  if (product === null) return false;
  return asksForWeight(product) || (product.labelMinWeight !== null && animal.weighings.length === 0);
}

/** The product a due item would be given with: the preferred one of which there is a usable lot, else the preferred. */
export function productFor(world: World, item: DueItem): Product | null {
  const products = item.products.flatMap((id) => world.shelter.formulary?.products.find((one) => one.id === id) ?? []);
  const use = lotUse(world);
  const stocked = products.find((product) =>
    [...world.shelter.lots.values()].some(
      (lot) =>
        lot.of.is === 'product' &&
        lot.of.product === product.id &&
        lot.withdrawn === null &&
        (use.get(lot.id)?.left ?? lot.pieces) > 0,
    ),
  );
  return stocked ?? products[0] ?? null;
}

export const kitFor = (world: World, item: DueItem): KitType | null =>
  world.shelter.formulary?.kits.find((kit) => kit.id === item.kitTypes[0]) ?? null;

function needOf(world: World, animal: Animal, item: DueItem, now: string, today: CalendarDate): Need[] {
  switch (item.action) {
    case 'give': {
      const product = productFor(world, item);
      if (product === null) return [];
      const dose = doseFor(world.shelter, animal, product, now, today, { schedule: item.schedule });
      return [
        {
          is: 'dose',
          product: product.id,
          syringe: dose?.drawn?.syringe ?? null,
          volume_ul: dose?.exact_ul ?? null,
          inWords: dose?.inWords != null,
        },
      ];
    }
    case 'test': {
      const kit = kitFor(world, item);
      return kit === null ? [] : [{ is: 'test', kitType: kit.id }];
    }
    case 'chip':
      return [{ is: 'chip' }];
    case 'weigh':
      return [{ is: 'weighing' }];
    case 'look':
      return [];
  }
}

/** Usable lots of what is wanted, first-expiring first; expired, withdrawn and used-up ones are left out. */
export function usableLots(world: World, wanted: (of: Lot['of']) => boolean, today: CalendarDate): LotOffer[] {
  const use = lotUse(world);
  return [...world.shelter.lots.values()]
    .filter((lot) => wanted(lot.of) && lot.withdrawn === null && (lot.expires === null || lot.expires >= today))
    .map((lot) => ({ lot, left: use.get(lot.id)?.left ?? lot.pieces }))
    .filter((offer) => offer.left > 0)
    .sort((a, b) => ((a.lot.expires ?? '9999') < (b.lot.expires ?? '9999') ? -1 : 1));
}

function lotsFor(world: World, cart: Cart, today: CalendarDate): LotOffer[] {
  const products = new Set(cart.products.map(({ product }) => product.id));
  const kits = new Set(cart.kits.map(({ kit }) => kit.id));
  const wanted = (of: Lot['of']): boolean =>
    of.is === 'product'
      ? products.has(of.product)
      : of.is === 'kit'
        ? kits.has(of.kitType)
        : of.is === 'chips' && cart.chips > 0;
  return usableLots(world, wanted, today);
}

function problemsOf(world: World, cart: Cart, today: CalendarDate): Said[] {
  const problems: Said[] = [];
  const why = whyNoDocuments(world.shelter);
  if (why !== null) problems.push(why);
  const stock = (wanted: (of: Lot['of']) => boolean): number =>
    usableLots(world, wanted, today).reduce((sum, offer) => sum + offer.left, 0);
  for (const { product, doses } of cart.products) {
    const left = stock((of) => of.is === 'product' && of.product === product.id);
    if (left < doses) problems.push(said('prepare.short', { what: product.name, wanted: doses, left }));
  }
  for (const { kit, tests } of cart.kits) {
    const left = stock((of) => of.is === 'kit' && of.kitType === kit.id);
    if (left < tests) problems.push(said('prepare.short', { what: kit.name, wanted: tests, left }));
  }
  const wanted = cart.kits.reduce((sum, one) => sum + one.draws, 0);
  const ready = readySyringesLeft(world, today);
  if (ready !== null && ready < wanted) problems.push(said('plan.short.ready', { left: ready, wanted }));
  const chips = stock((of) => of.is === 'chips');
  if (chips < cart.chips) problems.push(said('prepare.short-chips', { wanted: cart.chips, left: chips }));
  return problems;
}
