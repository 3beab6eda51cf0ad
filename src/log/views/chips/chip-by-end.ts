import { readChip, sameChip } from '../../../core/chip/read-chip.js';
import type { AnimalId, LotId } from '../../../core/ids.js';
import { no, type Outcome, ok } from '../../../core/said.js';
import { effective } from '../effective.js';
import type { World } from '../world.js';
import { codesElsewhere } from './chip-elsewhere.js';

/** So many signs at least: two fit half the boxes there are. */
export const leastSigns = 4;

export interface ChipOnPaper {
  readonly code: string;
  readonly class: string;
  /** The box with it on its list; null when it is on none. */
  readonly lot: LotId | null;
}

/**
 * The chip that a sheet means: the whole number, or its last four digits or more where they fit exactly one chip of the
 * boxes here that is in no animal. Nothing is guessed: of two that fit, and of none, the whole number is asked for.
 */
export function chipOnPaper(world: World, animal: AnimalId, text: string): Outcome<ChipOnPaper> {
  const digits = text.replace(/[\s\-.]+/g, '');
  const boxes = [...world.shelter.lots.values()].flatMap(({ id, of }) =>
    of.is === 'chips' ? of.codes.map((code) => ({ code, lot: id })) : [],
  );
  const boxOf = (code: string): LotId | null => boxes.find((one) => sameChip(one.code, code))?.lot ?? null;
  if (/^\d+$/.test(digits) && digits.length < 15) {
    const used = usedChips(world, animal);
    const fitting = digits.length < leastSigns ? [] : boxes.filter(({ code }) => code.endsWith(digits) && !used(code));
    const [one, another] = fitting;
    if (one !== undefined && another === undefined) return ok({ ...one, class: 'iso' });
    if (another !== undefined) return no('ribbon.key-in.chip-fits-several', { end: digits, count: fitting.length });
    const whole = readChip(digits);
    if (whole.ok) return ok({ code: whole.value.code, class: whole.value.class, lot: boxOf(whole.value.code) });
    return no('ribbon.key-in.chip-fits-none', { end: digits });
  }
  const whole = readChip(text);
  if (!whole.ok) return whole;
  const { code } = whole.value;
  return ok({ code, class: whole.value.class, lot: boxOf(code) });
}

/** Whether a chip of a box is out of it: in an animal, found in one, or scanned in its pack for another one. */
function usedChips(world: World, animal: AnimalId): (code: string) => boolean {
  const used = new Set(codesElsewhere(world));
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:')) continue;
    for (const record of effective(records)) {
      if (record.kind === 'chip-implanted') used.add(record.body.code);
      if (record.kind !== 'chip-scanned' || record.body.found === null) continue;
      const own = record.body.target === 'pack' && subject === `animal:${animal}`;
      if (!own) used.add(record.body.found.code);
    }
  }
  return (code) => used.has(code);
}
