import { prefixOf } from '../../core/chip/iso-code.js';
import { sameChip } from '../../core/chip/read-chip.js';
import type { LotId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { effective } from './effective.js';
import type { Lot, Shelter } from './shelter.js';
import type { World } from './world.js';

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
  if (chipsOf(world).discarded.has(code)) return no('round.chip.was-discarded', { code });
  const box = boxOfChip(code, world.shelter.lots.values());
  if (box !== null && box.withdrawn !== null) return no('round.chip.withdrawn', { code, lot: box.lotText });
  return ok({ lot: box?.id ?? null, listed: box !== null });
}

const lists = new WeakMap<Shelter['lots'], ReadonlySet<string>>();

/** The numbers of every box on record, worked out once for the same boxes. */
export function codesInBoxes(lots: Shelter['lots']): ReadonlySet<string> {
  const before = lists.get(lots);
  if (before !== undefined) return before;
  const codes = new Set([...lots.values()].flatMap((lot) => (lot.of.is === 'chips' ? lot.of.codes : [])));
  lists.set(lots, codes);
  return codes;
}

interface Chips {
  /** Every number that anything on record carries, in an animal or in a box. */
  readonly known: ReadonlySet<string>;
  readonly discarded: ReadonlySet<string>;
}
const remembered = new WeakMap<World, Chips>();

/** All chip numbers that the shelter knows of. */
export function chipsOf(world: World): Chips {
  const before = remembered.get(world);
  if (before !== undefined) return before;
  const known = new Set(codesInBoxes(world.shelter.lots));
  const discarded = new Set<string>();
  for (const animal of world.animals.values()) if (animal.chip !== null) known.add(animal.chip.code);
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:') || !records.some((record) => record.kind === 'chip-discarded')) continue;
    for (const record of effective(records)) if (record.kind === 'chip-discarded') discarded.add(record.body.code);
  }
  remembered.set(world, { known, discarded });
  return { known, discarded };
}
