import type { Animal } from '../../core/animal/animal.js';
import { sameChip } from '../../core/chip/read-chip.js';
import { derived } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import type { ChipNumberRow, ChipStanding } from '../read-rows.js';
import type { LogRecord } from '../record.js';

/** Every number that stands on the record of one animal, each once, under the strongest that is said of it. */
export const chipNumbersOf = (
  { scans, chip, left, id, label, name }: Animal,
  standing: readonly LogRecord[],
): readonly ChipNumberRow[] => rowsOf(scans, standing, chip, left, id, label === '' ? name : label);

const rowsOf = derived(
  (
    scans: Animal['scans'],
    standing: readonly LogRecord[],
    chip: Animal['chip'],
    left: Animal['left'],
    animal: AnimalId,
    label: string,
  ): readonly ChipNumberRow[] =>
    standings(scans, standing, chip).map(({ code, is }) => ({
      code,
      animal,
      standing: is,
      label,
      left_on: left?.on ?? null,
    })),
);

function standings(scans: Animal['scans'], standing: readonly LogRecord[], chip: Animal['chip']) {
  const found: { code: string; is: ChipStanding }[] = [];
  const add = (code: string, is: ChipStanding): void => {
    if (!found.some((one) => sameChip(one.code, code))) found.push({ code, is });
  };
  if (chip !== null) add(chip.code, 'carried');
  for (const record of standing) if (record.kind === 'chip-discarded') add(record.body.code, 'discarded');
  for (const record of standing) if (record.kind === 'chip-implanted') add(record.body.code, 'read');
  for (const { target, code } of scans) if (target === 'animal' && code !== null) add(code, 'read');
  return found;
}
