import type { Animal } from '../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import type { Dose } from '../../core/dosing/dose.js';
import type { Product } from '../../core/dosing/formulary.js';
import type { GateCode } from '../../core/dosing/gate.js';
import type { AnimalId, ProductId, ScheduleId, SectionId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { type Cart, cartFor, type Need } from '../../core/round/cart.js';
import { type Said, said } from '../../core/said.js';
import { lotUse } from '../stock/lots.js';
import { readySyringesLeft } from '../stock/ready-syringes.js';
import { doseFor } from '../views/doses/dose.js';
import { dosesGiven, openedFor } from '../views/doses/opened.js';
import { dueAt } from '../views/due/due-at.js';
import { visitOrderOf } from '../views/due/schedules.js';
import { groupOf } from '../views/round/group.js';
import type { Lot, Section } from '../views/shelter.js';
import { sectionOf, whyNoDocuments } from '../views/shelter.js';
import { byPlace, inCare, type World } from '../views/world.js';
import { kitFor, productFor, weighedFirst } from './item-needs.js';

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
  /** Doses that are due and that a stop stands against. */
  readonly stopped: readonly StoppedDose[];
  /** Lots to take, first-expiring first, by product and kit. */
  readonly lots: readonly CartLot[];
  /** What is missing or in the way, as sentences. */
  readonly problems: readonly Said[];
}

/** A dose that is due and that must not be given as things stand: it has no volume anywhere. */
export interface StoppedDose {
  readonly animal: AnimalId;
  readonly schedule: ScheduleId;
  readonly product: ProductId;
  readonly why: Said;
  /** True where the round itself takes the stop away, by weighing, making up, diluting or another vial. */
  readonly onCart: boolean;
}

export interface LotOffer {
  readonly lot: Lot;
  readonly left: number;
}

/** A lot of the cart, with how many of the round's doses, tests or chips are to come from it. */
export interface CartLot extends LotOffer {
  readonly doses: number;
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
  const doses = met.flatMap(({ animal, due }) => due.flatMap((item) => doseOfItem(world, animal, item, now) ?? []));
  const stopped = doses.flatMap((one) => stoppedDose(one) ?? []);
  const needs = met.flatMap(({ due }) => {
    const own = due.flatMap((item) =>
      item.action === 'give' ? doses.filter((one) => one.of === item).flatMap(doseNeed) : needOf(world, item),
    );
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
    stopped,
    lots: lotsFor(world, cart, today),
    problems: [...problemsOf(world, cart, today), ...stopped.flatMap((one) => leftOut(world, one))],
  };
}

function prepareAnimal(world: World, animal: Animal, now: string, today: CalendarDate): PreparedAnimal {
  const items = [...dueAt(world, animal, now)].sort(
    (a, b) =>
      visitOrderOf(world.shelter, a.schedule) - visitOrderOf(world.shelter, b.schedule) ||
      (a.schedule < b.schedule ? -1 : 1),
  );
  const due = items.filter(({ status }) => status === 'due' || status === 'overdue');
  const waiting = items.filter(({ status }) => status === 'on-hold');
  return { animal, due, waiting, weighFirst: weighedFirst(world, animal, [...due, ...waiting], now, today) };
}

/** Whether an animal is weighed first for what is due to it or waits: what Prepare, the command line and Today count. */
export const isToBeWeighedFirst = (world: World, animal: Animal, now: string, today: CalendarDate): boolean =>
  prepareAnimal(world, animal, now, today).weighFirst;

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

/** A due treatment with the product it would be given with and its dose now. */
interface DoseOfItem {
  readonly of: DueItem;
  readonly animal: Animal;
  readonly product: Product;
  readonly dose: Dose;
}

function doseOfItem(world: World, animal: Animal, item: DueItem, now: string): DoseOfItem | null {
  const product = item.action === 'give' ? productFor(world, item) : null;
  if (product === null) return null;
  const dose = doseFor(world.shelter, animal, product, now, dayOfInstant(now, world.shelter.zone), {
    schedule: item.schedule,
    opened: openedFor(world, animal.id),
    recent: dosesGiven(world, animal.id),
  });
  return dose === null ? null : { of: item, animal, product, dose };
}

/** Stops that the round itself takes away; whatever else stops is for the medical team, before anything is packed. */
const onTheRound: ReadonlySet<GateCode> = new Set<GateCode>([
  'weight-missing',
  'weight-stale',
  'weight-doubtful',
  'not-made-up',
  'made-up-too-old',
  'strength-twin',
]);

function stoppedDose({ of, animal, product, dose }: DoseOfItem): StoppedDose | null {
  const stops = dose.gates.filter((gate) => gate.severity === 'stop');
  const lasting = stops.find(({ code }) => !onTheRound.has(code));
  const first = lasting ?? stops[0];
  if (first === undefined) return null;
  const onCart = lasting === undefined || dose.dilutionsThatHelp.length > 0;
  return { animal: animal.id, schedule: of.schedule, product: product.id, why: first.why, onCart };
}

/** What stands against a due treatment at an instant; null when nothing does, or it is not due. */
export function stopOf(world: World, animal: Animal, item: DueItem, now: string): StoppedDose | null {
  const dose = item.status === 'due' || item.status === 'overdue' ? doseOfItem(world, animal, item, now) : null;
  return dose === null ? null : stoppedDose(dose);
}

function doseNeed(one: DoseOfItem): Need[] {
  const { product, dose } = one;
  if (stoppedDose(one)?.onCart === false) return [];
  return [
    {
      is: 'dose',
      product: product.id,
      syringe: dose.stopped ? null : (dose.drawn?.syringe ?? null),
      // As it is drawn to the mark: the cart and the sheet name one figure.
      volume_ul: dose.stopped ? null : (dose.total_ul ?? dose.exact_ul),
      inWords: dose.inWords !== null,
    },
  ];
}

/** Why a product is not on the cart although it is due. */
function leftOut(world: World, { animal, product, why, onCart }: StoppedDose): Said[] {
  if (onCart) return [];
  const found = world.animals.get(animal);
  return [
    said('prepare.left-out', {
      what: world.shelter.formulary?.products.find((one) => one.id === product)?.name ?? product,
      animal: found === undefined || found.name === '' ? (found?.label ?? animal) : found.name,
      why,
    }),
  ];
}

function needOf(world: World, item: DueItem): Need[] {
  switch (item.action) {
    case 'give':
    case 'look':
      return [];
    case 'test': {
      const kit = kitFor(world, item);
      return kit === null ? [] : [{ is: 'test', kitType: kit.id }];
    }
    case 'chip':
      return [{ is: 'chip' }];
    case 'weigh':
      return [{ is: 'weighing' }];
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

function lotsFor(world: World, cart: Cart, today: CalendarDate): CartLot[] {
  /** What a lot is of, and how much of that the round needs. */
  const need = (of: Lot['of']): readonly [string, number] => {
    if (of.is === 'product')
      return [of.product, cart.products.find((one) => one.product.id === of.product)?.doses ?? 0];
    if (of.is === 'kit') return [of.kitType, cart.kits.find((one) => one.kit.id === of.kitType)?.tests ?? 0];
    return ['chips', of.is === 'chips' ? cart.chips : 0];
  };
  const taken = new Map<string, number>();
  return usableLots(world, (of) => need(of)[1] > 0, today).map((offer) => {
    const [what, wanted] = need(offer.lot.of);
    const before = taken.get(what) ?? 0;
    const doses = Math.min(offer.left, wanted - before);
    taken.set(what, before + doses);
    return { ...offer, doses };
  });
}

function problemsOf(world: World, cart: Cart, today: CalendarDate): Said[] {
  const problems: Said[] = [];
  const why = whyNoDocuments(world.shelter);
  if (why !== null) problems.push(why);
  const nowhere = inCare(world).filter((animal) => sectionOf(world.shelter, animal.section) === null).length;
  if (nowhere > 0) problems.push(said('prepare.no-section', { count: nowhere }));
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
