import type { Animal } from '../../../core/animal/animal.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { LotId, RecordId } from '../../../core/ids.js';
import { no, type Outcome, ok } from '../../../core/said.js';
import type { LogRecord } from '../../../log/record.js';
import type { Lot } from '../../../log/views/shelter.js';

/**
 * How far implanting has come on this round, read from the records alone:
 *
 *   scan the animal -> none found -> scan the pack -> implant -> scan the animal -> compare
 *        |
 *        +-> found: stop, there is a chip already
 */
export type ChipState =
  | { readonly is: 'scan-before' }
  | { readonly is: 'found'; readonly code: string }
  | { readonly is: 'scan-pack' }
  | { readonly is: 'implant'; readonly code: string; readonly pack: RecordId; readonly typed: boolean }
  | { readonly is: 'scan-after'; readonly code: string; readonly implantedAt: string }
  | { readonly is: 'same'; readonly code: string }
  | { readonly is: 'differs'; readonly code: string; readonly found: string }
  | { readonly is: 'unreadable'; readonly code: string };

/** The records of one animal that stand, in order of happening; those of other rounds are left out by the caller. */
export function chipState(own: readonly LogRecord[]): ChipState {
  const implant = own.findLast((record) => record.kind === 'chip-implanted');
  if (implant?.kind === 'chip-implanted') {
    const { code } = implant.body;
    const after = own.findLast((record) => isScan(record, 'after') && record.happenedAt >= implant.happenedAt);
    if (after?.kind !== 'chip-scanned') return { is: 'scan-after', code, implantedAt: implant.happenedAt };
    const found = after.body.found?.code ?? null;
    if (found === null) return { is: 'unreadable', code };
    return sameChip(found, code) ? { is: 'same', code } : { is: 'differs', code, found };
  }
  const before = own.findLast((record) => isScan(record, 'before'));
  if (before?.kind !== 'chip-scanned') return { is: 'scan-before' };
  if (before.body.found !== null) return { is: 'found', code: before.body.found.code };
  const pack = own.findLast((record) => isScan(record, 'pack') && record.happenedAt >= before.happenedAt);
  if (pack?.kind !== 'chip-scanned' || pack.body.found === null) return { is: 'scan-pack' };
  return { is: 'implant', code: pack.body.found.code, pack: pack.id, typed: pack.body.typed };
}

const isScan = (record: LogRecord, occasion: string): boolean =>
  record.kind === 'chip-scanned' && record.body.occasion === occasion;

/** Where a chip in its pack came from: the box with it on its list, or none. */
export function boxOfChip(code: string, lots: Iterable<Lot>): Lot | null {
  for (const lot of lots) if (lot.of.is === 'chips' && lot.of.codes.some((one) => sameChip(one, code))) return lot;
  return null;
}

/**
 * Whether a chip in its pack may go into an animal. On another animal's record, or in a withdrawn box, it may not; not on
 * the list of any box is said, and goes on.
 */
export function checkPack(
  code: string,
  animals: Iterable<Animal>,
  lots: Iterable<Lot>,
): Outcome<{ readonly lot: LotId | null; readonly listed: boolean }> {
  for (const animal of animals) {
    if (animal.chip !== null && sameChip(animal.chip.code, code)) {
      return no('round.chip.taken', { code, animal: animal.name || animal.label });
    }
  }
  const box = boxOfChip(code, lots);
  if (box !== null && box.withdrawn !== null) return no('round.chip.withdrawn', { code, lot: box.lotText });
  return ok({ lot: box?.id ?? null, listed: box !== null });
}
