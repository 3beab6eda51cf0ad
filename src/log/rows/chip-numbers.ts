import type { Animal } from '../../core/animal/animal.js';
import { sameChip } from '../../core/chip/read-chip.js';
import type { LogRecord } from '../record.js';

/**
 * How a number stands with an animal: `carried`, it is the chip on its record; `discarded`, it was put in or dropped and
 * thrown away; `read`, it was put in once or read in it, on any occasion and whatever was said of it since.
 */
export type ChipStanding = 'carried' | 'discarded' | 'read';

/** One number that was ever recorded on an animal. Text, whatever kind of chip it is. */
export interface ChipNumberRow {
  readonly code: string;
  readonly animal: string;
  readonly standing: ChipStanding;
  readonly label: string;
  readonly left_on: string | null;
}

/** Every number that stands on the record of one animal, each once, under the strongest that is said of it. */
export function chipNumbersOf(animal: Animal, standing: readonly LogRecord[]): ChipNumberRow[] {
  const found: { code: string; is: ChipStanding }[] = [];
  const add = (code: string, is: ChipStanding): void => {
    if (!found.some((one) => sameChip(one.code, code))) found.push({ code, is });
  };
  if (animal.chip !== null) add(animal.chip.code, 'carried');
  for (const record of standing) if (record.kind === 'chip-discarded') add(record.body.code, 'discarded');
  for (const record of standing) if (record.kind === 'chip-implanted') add(record.body.code, 'read');
  for (const { target, code } of animal.scans) if (target === 'animal' && code !== null) add(code, 'read');
  const { id, label, name, left } = animal;
  return found.map(({ code, is }) => ({
    code,
    animal: id,
    standing: is,
    label: label === '' ? name : label,
    left_on: left?.on ?? null,
  }));
}
