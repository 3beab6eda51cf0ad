import type { Animal, ChipScan } from '../../../core/animal/animal.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { AnimalId } from '../../../core/ids.js';
import type { AnimalStop, RoundView } from '../../../log/views/round.js';

/** What a chip read on an animal says about which animal it is. */
export type ScanMeaning =
  | { readonly is: 'match' }
  /** The chip is on another animal's record. */
  | { readonly is: 'other'; readonly animal: Animal }
  /** The chip is on nobody's record, and this animal is known to carry another one. */
  | { readonly is: 'not-this'; readonly expected: string }
  /** The chip is on nobody's record, and this animal has none on record: a finding, but no proof of identity. */
  | { readonly is: 'unknown' };

/** Compares a chip that was read with the records of all animals. `code` is a number as `readChip` gives it. */
export function meaningOfScan(animal: Animal, code: string, animals: Iterable<Animal>): ScanMeaning {
  if (animal.chip !== null && sameChip(animal.chip.code, code)) return { is: 'match' };
  for (const other of animals) {
    if (other.id !== animal.id && other.chip !== null && sameChip(other.chip.code, code)) {
      return { is: 'other', animal: other };
    }
  }
  return animal.chip === null ? { is: 'unknown' } : { is: 'not-this', expected: animal.chip.code };
}

export const markKinds = ['collar', 'coat', 'mark', 'photo'] as const;
export type MarkKind = (typeof markKinds)[number];

/** Identity marks on record, in the order in which they are compared. */
export const marksOf = (animal: Animal): MarkKind[] => markKinds.filter((kind) => animal.marks[kind].trim() !== '');

/** One mark alone does not tell litter mates apart; two do (ours). */
export const leastMarks = 2;
export const marksSuffice = (animal: Animal): boolean => marksOf(animal).length >= leastMarks;

/**
 * The last chip read to identify this animal that was not its own, if nobody has made sure of the animal since. As long
 * as there is one, the animal is not identified, also after a reload.
 */
export function contradiction({ animal, identified }: AnimalStop, round: string): ChipScan | null {
  const scan = animal.scans.findLast((one) => one.occasion === 'identify' && one.round === round && one.code !== null);
  if (scan === undefined || scan.code === null) return null;
  if (animal.chip !== null && sameChip(animal.chip.code, scan.code)) return null;
  return identified !== null && identified.happenedAt >= scan.at ? null : scan;
}

/**
 * Whether the animal is still the one in the hands: it was identified on this round, no other animal has been identified
 * on this device since, and no chip was read on it since that is not its own.
 */
export function identityHolds(view: RoundView, animal: AnimalId, device: string): boolean {
  let last: AnimalStop | null = null;
  for (const stop of view.stops.flatMap((section) => section.animals)) {
    if (stop.identified === null || stop.identified.device !== device) continue;
    if (last?.identified == null || stop.identified.happenedAt >= last.identified.happenedAt) last = stop;
  }
  return last !== null && last.animal.id === animal && contradiction(last, view.facts.id) === null;
}

/** When this device last made sure of any animal of the round, or empty. */
export const lastIdentified = (view: RoundView, device: string): string =>
  view.stops
    .flatMap((section) => section.animals)
    .map(({ identified }) => (identified?.device === device ? identified.happenedAt : ''))
    .sort()
    .at(-1) ?? '';
