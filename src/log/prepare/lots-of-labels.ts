import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { derived } from '../../core/derived.js';
import type { AnimalId, LotId, ProductId, RoundId, ScheduleId } from '../../core/ids.js';
import { lotUse } from '../stock/lots.js';
import { effective } from '../views/effective.js';
import { roundView } from '../views/round/round.js';
import type { RoundFacts } from '../views/round-facts.js';
import type { Lot } from '../views/shelter.js';
import { dueIn, type World } from '../views/world.js';
import { productFor } from './item-needs.js';

/** The order in which the plan that was laid down takes animals in hand; without one, the order of its lines. */
function placesIn({ lines, ribbon }: RoundFacts['plan']): ReadonlyMap<string, number> {
  const met = [...(ribbon?.visits ?? [])]
    .sort((a, b) => a.start - b.start)
    .flatMap(({ steps }) => [...steps].sort((a, b) => a.start - b.start))
    .flatMap(({ is, animal }) => (is === 'handling' && animal !== null ? [animal] : []));
  return new Map([...new Set([...met, ...lines.map(({ animal }) => animal as string)])].map((one, i) => [one, i]));
}

/** A lot that expires before the one a dose is meant to come from, and for whom it is meant. */
export interface ExpiresBefore {
  readonly lot: Lot;
  readonly left: number;
  /** Animals of the round that are still to be given from it. */
  readonly for: readonly AnimalId[];
}

/**
 * Why the label of a dose does not name the lot that expires first: it is meant for others of the round, or was left over.
 * Null where nothing usable expires before.
 */
export function expiresBefore(world: World, round: RoundId, chosen: Lot, today: CalendarDate): ExpiresBefore | null {
  const { of } = chosen;
  if (of.is !== 'product') return null;
  const use = lotUse(world);
  const lot = inStock(world, today).find(
    (one) => one.of.is === 'product' && one.of.product === of.product && (use.get(one.id)?.left ?? one.pieces) > 0,
  );
  if (lot === undefined || lot.id === chosen.id || (lot.expires ?? '9999') >= (chosen.expires ?? '9999')) return null;
  const labels = lotsOfRound(world, round, today);
  const stops = roundView(world, round)?.stops.flatMap(({ animals }) => animals) ?? [];
  const meant = stops.filter(({ animal, lines }) =>
    lines.some((line) => line.state === 'open' && labels.get(keyOfGiving(animal, line.schedule))?.id === lot.id),
  );
  return { lot, left: use.get(lot.id)?.left ?? lot.pieces, for: meant.map(({ animal }) => animal.id) };
}

/** Usable lots, the first to expire first. */
const inStock = (world: World, today: CalendarDate): Lot[] =>
  [...world.shelter.lots.values()]
    .filter((lot) => lot.withdrawn === null && (lot.expires === null || lot.expires >= today))
    .sort((a, b) => ((a.expires ?? '9999') < (b.expires ?? '9999') ? -1 : 1));

/** One thing to be given, in its place in the order of the round. */
export interface ToGive {
  readonly key: string;
  readonly product: ProductId;
}

export const keyOfGiving = (animal: Animal, schedule: ScheduleId): string => `${animal.id} ${schedule}`;

/** Which of the lots are counted on, and what is added to what is left of them. */
interface Stock {
  /** Lots that came in after this instant are taken only when the others are used up; null: all alike. */
  readonly since: string | null;
  readonly back: ReadonlyMap<LotId, number>;
}
const asItIs: Stock = { since: null, back: new Map() };

/**
 * The lot that each prepared dose is from: the first to expire, and no more of a lot than there are pieces of it; a dose
 * for which none is left is not in the answer.
 */
export function lotsFor(
  world: World,
  wanted: readonly ToGive[],
  today: CalendarDate,
  stock: Stock = asItIs,
): ReadonlyMap<string, Lot> {
  const use = lotUse(world);
  const isLate = (lot: Lot): number => (stock.since !== null && lot.receivedAt > stock.since ? 1 : 0);
  const lots = inStock(world, today).sort((a, b) => isLate(a) - isLate(b));
  const left = new Map(lots.map(({ id, pieces }) => [id, (use.get(id)?.left ?? pieces) + (stock.back.get(id) ?? 0)]));
  const answer = new Map<string, Lot>();
  for (const { key, product } of wanted) {
    const lot = lots.find(({ id, of }) => of.is === 'product' && of.product === product && (left.get(id) ?? 0) > 0);
    if (lot === undefined) continue;
    left.set(lot.id, (left.get(lot.id) ?? 0) - 1);
    answer.set(key, lot);
  }
  return answer;
}

/**
 * The lot that the label of each prepared dose of a round says, the same for sheet, label and the screen at the cage from
 * the laying of the round to its end: over all its lines in the order in which the plan meets the animals, done ones too,
 * as the stock stood before it. So what was given, left out or given from another bottle moves no other label.
 */
export const lotsOfRound = derived((world: World, round: RoundId, today: CalendarDate): ReadonlyMap<string, Lot> => {
  const view = roundView(world, round);
  if (view === null) return new Map();
  const place = placesIn(view.facts.plan);
  const stops = view.stops
    .flatMap(({ animals }) => animals)
    .sort((a, b) => (place.get(a.animal.id) ?? place.size) - (place.get(b.animal.id) ?? place.size));
  const back = new Map<LotId, number>();
  const given = new Map<string, ProductId>();
  for (const { animal } of stops) {
    for (const record of effective(world.bySubject.get(`animal:${animal.id}`) ?? [])) {
      if (record.kind !== 'treatment-given' || record.body.round !== round) continue;
      const { lot: id, product, schedule } = record.body;
      if (schedule !== null) given.set(keyOfGiving(animal, schedule), product);
      const lot = id === null ? undefined : world.shelter.lots.get(id);
      if (lot !== undefined && record.happenedAt > lot.countedAt) back.set(lot.id, (back.get(lot.id) ?? 0) + 1);
    }
  }
  const wanted = [false, true].flatMap((added) =>
    stops.flatMap(({ animal, lines }) =>
      lines.flatMap((line): ToGive[] => {
        if (line.action !== 'give' || (line.added === true) !== added) return [];
        const key = keyOfGiving(animal, line.schedule);
        const item = dueIn(world, animal, today).find(({ schedule }) => schedule === line.schedule);
        const product = given.get(key) ?? (item === undefined ? undefined : productFor(world, item)?.id);
        return product === undefined ? [] : [{ key, product }];
      }),
    ),
  );
  return lotsFor(world, wanted, today, { since: view.facts.plannedAt, back });
});
