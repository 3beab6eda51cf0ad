import type { Filed } from './documents/filed.js';
import type { Lot, Shelter } from './shelter.js';

/** What of a lot a dose, a test or a chip from it is judged by; how many are left is no part of it. */
export type JudgedLot = Pick<Lot, 'id' | 'of' | 'lotText' | 'expires' | 'withdrawn' | 'prepared'>;

/**
 * All of the shelter that one animal is judged by: what is due to it, what its doses were worth, its tests, its flags.
 * Functions over one animal take this and not the shelter, so that the compiler says when they come to read more.
 */
export interface Ground
  extends Pick<
    Shelter,
    'zone' | 'protocol' | 'protocols' | 'formulary' | 'formularies' | 'variants' | 'sections' | 'people'
  > {
  readonly lots: ReadonlyMap<Lot['id'], JudgedLot>;
}

/**
 * The ground of a shelter; `before` itself, and each part of it, while it still says the same. What was derived from it
 * is then found again.
 */
export function groundOf(shelter: Shelter, before: Ground | null): Ground {
  const { zone, protocol, formulary } = shelter;
  const lots = new Map(
    [...shelter.lots].map(([key, { id, of, lotText, expires, withdrawn, prepared }]) => [
      key,
      { id, of, lotText, expires, withdrawn, prepared },
    ]),
  );
  const ground: Ground = {
    zone,
    protocol,
    protocols: sameList(before?.protocols, shelter.protocols),
    formulary,
    formularies: sameList(before?.formularies, shelter.formularies),
    variants: kept(before?.variants, shelter.variants, (variants) => [...variants]),
    sections: kept(before?.sections, shelter.sections, (sections) => sections),
    lots: kept(before?.lots, lots, (all) => [...all]),
    people: kept(before?.people, shelter.people, (people) => people),
  };
  const parts = Object.keys(ground) as (keyof Ground)[];
  return before !== null && parts.every((part) => before[part] === ground[part]) ? before : ground;
}

/** Documents are large and never change under one version: the list is compared by them, and by where each stands. */
function sameList<D>(before: readonly Filed<D>[] | undefined, now: readonly Filed<D>[]): readonly Filed<D>[] {
  const same =
    before?.length === now.length &&
    before.every((one, place) => one.document === now[place]?.document && one.state === now[place]?.state);
  return same ? before : now;
}

/** The earlier value while both say the same. */
function kept<T>(before: T | undefined, now: T, saying: (value: T) => unknown): T {
  if (before === undefined) return now;
  return JSON.stringify(saying(before)) === JSON.stringify(saying(now)) ? before : now;
}
