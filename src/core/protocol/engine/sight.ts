import type { Animal, HistoryEvent, Observation } from '../../animal/animal.js';
import { derived, partBy } from '../../derived.js';
import type { ScheduleId } from '../../ids.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import type { Catalogue, ProtocolInput } from '../input.js';
import { productsFor } from './products.js';
import { placesIn } from './routes.js';
import { inUse } from './subject.js';

/**
 * What of an animal the schedules of a protocol look at, so that what has come of a schedule stands while something else
 * is recorded. Told from the texts of the protocol and the conditions of the products, and only ever too careful:
 * - an observation whose code stands in neither is nothing to any schedule;
 * - a weighing is nothing to a schedule that neither weighs, nor asks for a least weight, itself or by a condition of a product
 *   that it may be done with, nor names one that does.
 */
interface Sight {
  readonly codes: ReadonlySet<string>;
  /** Schedules in use that a weighing may be something to, and the others. */
  readonly weighed: readonly Schedule[];
  readonly unweighed: readonly Schedule[];
}

export const sightOf = derived((protocol: ProtocolDocument, formulary: Catalogue | null): Sight => {
  const { schedules } = protocol;
  const conditions = new Map(formulary?.products.map((one) => [one.id, one.conditions ?? []]));
  const ofProducts = (schedule: Schedule) =>
    formulary === null ? [] : productsFor(schedule, formulary).flatMap((id) => conditions.get(id) ?? []);
  const texts = new Map(schedules.map((schedule) => [schedule, new Set(textsIn(schedule))]));
  const byWeight = new Set(
    schedules.filter(
      (schedule) =>
        schedule.action === 'weigh' ||
        schedule.minimumWeight !== null ||
        ofProducts(schedule).some(({ is }) => is === 'weight'),
    ),
  );
  for (let before = 0; before < byWeight.size; ) {
    before = byWeight.size;
    const names = [...byWeight].map(({ id }) => id);
    for (const one of schedules) if (names.some((id) => texts.get(one)?.has(id))) byWeight.add(one);
  }
  const used = inUse(protocol);
  return {
    codes: new Set([...textsIn(protocol), ...textsIn([...conditions.values()])]),
    weighed: used.filter((one) => byWeight.has(one)),
    unweighed: used.filter((one) => !byWeight.has(one)),
  };
});

/** What was worked out for some schedules and for others, in the order of the protocol. */
export function inOrderOf<T extends { readonly schedule: ScheduleId }>(
  protocol: ProtocolDocument,
  items: readonly T[],
): T[] {
  const { byId } = placesIn(protocol);
  const placeOf = ({ schedule }: T): number => byId.get(schedule)?.place ?? 0;
  return items.toSorted((a, b) => placeOf(a) - placeOf(b));
}

/** Every text that stands in something, names of fields left out. */
function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsIn) : [];
}

/** An animal as schedules see it, with its weighings or without: the same object while nothing that they see changes. */
export function seenBy(protocol: ProtocolDocument, input: ProtocolInput, byWeight: boolean): ProtocolInput {
  const { animal, rank, formulary, formerFormularies } = input;
  const { id, born, arrivedOn, sex, neutered, left, holds, chip, runs, scans, orders, followUps } = animal;
  return seenAs(
    byWeight ? animal.history : unweighed(animal.history),
    byWeight ? animal.weighings : none,
    looked(animal.observations, sightOf(protocol, formulary).codes),
    holds,
    runs,
    chip,
    scans,
    orders,
    followUps,
    born,
    left,
    id,
    arrivedOn,
    sex,
    neutered,
    rank,
    formulary,
    formerFormularies,
  );
}

const none: Animal['weighings'] = [];

const unweighed = partBy<HistoryEvent, HistoryEvent>((one): one is HistoryEvent => one.what !== 'weighed');

const looked = partBy<Observation, Observation, [ReadonlySet<string>]>((one, codes): one is Observation =>
  codes.has(one.code),
);

type Seen = ProtocolInput['animal'];

const seenAs = derived(
  (
    history: Seen['history'],
    weighings: Seen['weighings'],
    observations: Seen['observations'],
    holds: Seen['holds'],
    runs: Seen['runs'],
    chip: Seen['chip'],
    scans: Seen['scans'],
    orders: Seen['orders'],
    followUps: Seen['followUps'],
    born: Seen['born'],
    left: Seen['left'],
    id: Seen['id'],
    arrivedOn: Seen['arrivedOn'],
    sex: Seen['sex'],
    neutered: Seen['neutered'],
    rank: ProtocolInput['rank'],
    formulary: ProtocolInput['formulary'],
    formerFormularies: ProtocolInput['formerFormularies'],
  ): ProtocolInput => {
    const whole = { id, born, arrivedOn, sex, neutered, left, history, observations, holds, chip, weighings, runs };
    const more = {
      ...(scans === undefined ? {} : { scans }),
      ...(orders === undefined ? {} : { orders }),
      ...(followUps === undefined ? {} : { followUps }),
    };
    return {
      animal: { ...whole, ...more },
      ...(rank === undefined ? {} : { rank }),
      formulary,
      ...(formerFormularies === undefined ? {} : { formerFormularies }),
    };
  },
);
