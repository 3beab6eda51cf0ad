import { derived } from '../../derived.js';
import type { ProductId, ScheduleId } from '../../ids.js';
import type { ProtocolDocument, Schedule } from '../document/document.js';
import { type Catalogue, classesOf, type ProtocolInput, worthFor } from '../input.js';

/**
 * Which schedules of a protocol something concerns, worked out once for each protocol, formulary and product instead of
 * once for each event and schedule. Places are those of the protocol's list of schedules.
 */
export interface Places {
  readonly byId: ReadonlyMap<ScheduleId, { readonly schedule: Schedule; readonly place: number }>;
  readonly tests: ReadonlyMap<ScheduleId, number>;
  readonly chips: readonly number[];
  readonly weighings: readonly number[];
  /** Places of schedules to look, by the code of observation that satisfies them. */
  readonly looks: ReadonlyMap<string, readonly number[]>;
}

/** A product that a schedule asks for, or of its kind without satisfying it. */
export interface Route {
  readonly place: number;
  /** Null for one that satisfies it. */
  readonly recordedOnly: Schedule['recordedOnly'][number] | null;
}

export const placesIn = derived((protocol: ProtocolDocument): Places => {
  const numbered = protocol.schedules.map((schedule, place) => ({ schedule, place }));
  const of = (action: Schedule['action']) => numbered.filter(({ schedule }) => schedule.action === action);
  const looks = new Map<string, number[]>();
  for (const { schedule, place } of of('look')) {
    for (const code of schedule.satisfiedBy) looks.set(code, [...(looks.get(code) ?? []), place]);
  }
  return {
    byId: new Map(numbered.map((one) => [one.schedule.id, one])),
    tests: new Map(of('test').map(({ schedule, place }) => [schedule.id, place])),
    chips: of('chip').map(({ place }) => place),
    weighings: of('weigh').map(({ place }) => place),
    looks,
  };
});

/** Stands for a formulary that is not there, as a key. */
const none: readonly Catalogue[] = [];
type Known = Map<ProductId, readonly Route[] | null>;
const routesKnown = derived((_protocol: ProtocolDocument, _formulary: object, _former: object): Known => new Map());

/** Routes found so far for the formularies of an input, by product; who asks for a new one adds it. */
export const routesIn = (input: ProtocolInput, protocol: ProtocolDocument): Known =>
  routesKnown(protocol, input.formulary ?? none, input.formerFormularies ?? none);

/** Schedules that a product is worth something to; null when it is in no formulary of the shelter. */
export function routesOf(
  input: ProtocolInput,
  protocol: ProtocolDocument,
  product: ProductId,
): readonly Route[] | null {
  if (classesOf(input, product) === null) return null;
  return protocol.schedules.flatMap((schedule, place) => routeTo(input, schedule, place, product));
}

function routeTo(input: ProtocolInput, schedule: Schedule, place: number, product: ProductId): Route[] {
  if (schedule.action !== 'give') return [];
  const worth = worthFor(input, schedule, product);
  if (worth === null) return [];
  return [{ place, recordedOnly: typeof worth === 'string' ? null : worth }];
}
