import { prefixOf } from '../../../core/chip/iso-code.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import { derived } from '../../../core/derived.js';
import type { LotId } from '../../../core/ids.js';
import { no, type Outcome, ok } from '../../../core/said.js';
import { subjectOf } from '../../record.js';
import { effective } from '../effective.js';
import type { Ground } from '../ground.js';
import type { Lot } from '../shelter.js';
import type { World } from '../world.js';
import { carriedElsewhere, chipElsewhere, codesElsewhere, namedElsewhere } from './chip-elsewhere.js';

/** Where a chip in its pack came from: the box with it on its list, or none. */
export function boxOfChip(code: string, lots: Iterable<Lot>): Lot | null {
  for (const lot of lots) if (lot.of.is === 'chips' && lot.of.codes.some((one) => sameChip(one, code))) return lot;
  return null;
}

/**
 * Whether a chip in its pack may go into an animal. A test number, one on another animal's record, one that was
 * discarded, or one of a withdrawn box may not; not on the list of any box is said, and goes on.
 */
export function checkPack(
  code: string,
  world: World,
): Outcome<{ readonly lot: LotId | null; readonly listed: boolean }> {
  if (/^\d{15}$/.test(code) && prefixOf(code).category === 'test') return no('round.chip.test-pack', { code });
  for (const animal of world.animals.values()) {
    if (animal.chip !== null && sameChip(animal.chip.code, code)) {
      return no('round.chip.taken', { code, animal: animal.name || animal.label });
    }
  }
  const elsewhere = chipElsewhere(world, code);
  const carrier = carriedElsewhere(world, code);
  if (carrier !== null) return no('round.chip.taken-left', { code, animal: namedElsewhere(carrier) });
  const { discarded, read } = chipsOf(world);
  if (discarded.has(code) || elsewhere.some(({ is }) => is === 'discarded'))
    return no('round.chip.was-discarded', { code });
  const readIn = read.get(code);
  if (readIn !== undefined) return no('round.chip.was-read', { code, animal: nameIn(world, readIn) });
  const [other] = elsewhere;
  if (other !== undefined) return no('round.chip.was-read', { code, animal: namedElsewhere(other.entry) });
  const box = boxOfChip(code, world.shelter.lots.values());
  if (box !== null && box.withdrawn !== null) return no('round.chip.withdrawn', { code, lot: box.lotText });
  return ok({ lot: box?.id ?? null, listed: box !== null });
}

function nameIn(world: World, id: string): string {
  const animal = [...world.animals.values()].find((one) => one.id === id);
  return animal === undefined ? id : animal.name || animal.label;
}

/** The numbers of every box on record. */
export const codesInBoxes = derived(
  (lots: Ground['lots']): ReadonlySet<string> =>
    new Set([...lots.values()].flatMap((lot) => (lot.of.is === 'chips' ? lot.of.codes : []))),
);

interface Chips {
  /** Every number that anything on record carries, in an animal or in a box. */
  readonly known: ReadonlySet<string>;
  readonly discarded: ReadonlySet<string>;
  /** Numbers that were put in an animal or read in it, on any occasion and whatever was said of it since; in which one. */
  readonly read: ReadonlyMap<string, string>;
}

/** All chip numbers that the shelter knows of. */
export const chipsOf = derived((world: World): Chips => {
  const known = new Set([...codesInBoxes(world.shelter.lots), ...codesElsewhere(world)]);
  const discarded = new Set<string>();
  const read = new Map<string, string>();
  for (const animal of world.animals.values()) if (animal.chip !== null) known.add(animal.chip.code);
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:') || !records.some(({ kind }) => kind.startsWith('chip-'))) continue;
    for (const record of effective(records)) {
      if (record.kind === 'chip-discarded') discarded.add(record.body.code);
      // One that another has taken the place of since is in it, or lies about.
      if (record.kind === 'chip-implanted') read.set(record.body.code, subjectOf({ subject }).id);
    }
  }
  for (const { id, scans } of world.animals.values()) {
    for (const { target, code } of scans) if (target === 'animal' && code !== null) read.set(code, id);
  }
  return { known, discarded, read };
});
