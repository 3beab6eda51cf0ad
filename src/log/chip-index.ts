import { z } from 'zod';
import { CalendarDate } from '../core/calendar.js';
import { readChip } from '../core/chip/read-chip.js';
import { AnimalId } from '../core/ids.js';

/** All chip numbers of one animal, as the index of every chip ever recorded has them. */
export const ChipEntry = z
  .object({
    animal: AnimalId,
    label: z.string().describe('Its number here, or its name when it has none'),
    left: CalendarDate.nullable().describe('The day it left; null while it is here'),
    numbers: z.array(z.object({ code: z.string().min(1), is: z.enum(['carried', 'discarded', 'read']) })),
  })
  .meta({ id: 'ChipEntry' });
export type ChipEntry = z.infer<typeof ChipEntry>;

/** The index as it is held: a value, by animal and by number. */
export interface ChipIndex {
  readonly byAnimal: ReadonlyMap<AnimalId, ChipEntry>;
  readonly byCode: ReadonlyMap<string, readonly AnimalId[]>;
}
export const noChips: ChipIndex = { byAnimal: new Map(), byCode: new Map() };

/** With what is new: `entries` in place of what was known of their animals, and `without` any of these. */
export function withChips(
  before: ChipIndex,
  entries: readonly ChipEntry[],
  without: readonly AnimalId[] = [],
): ChipIndex {
  if (entries.length + without.length === 0) return before;
  const byAnimal = new Map(before.byAnimal);
  const byCode = new Map(before.byCode);
  const drop = (animal: AnimalId): void => {
    for (const { code } of byAnimal.get(animal)?.numbers ?? []) {
      const rest = (byCode.get(code) ?? []).filter((one) => one !== animal);
      if (rest.length === 0) byCode.delete(code);
      else byCode.set(code, rest);
    }
    byAnimal.delete(animal);
  };
  for (const animal of without) drop(animal);
  for (const entry of entries) {
    drop(entry.animal);
    byAnimal.set(entry.animal, entry);
    for (const { code } of entry.numbers) byCode.set(code, [...(byCode.get(code) ?? []), entry.animal]);
  }
  return { byAnimal, byCode };
}

/** One animal that a number is recorded on, and how the number stands with it. */
export interface ChipFound {
  readonly entry: ChipEntry;
  readonly is: ChipEntry['numbers'][number]['is'];
}

/**
 * Animals that a number is recorded on and whose records are not here. Numbers are compared as `readChip` gives them,
 * which is how they are recorded; what it cannot read is compared as text.
 */
export function recordedElsewhere(
  { byAnimal, byCode }: ChipIndex,
  here: { readonly has: (animal: AnimalId) => boolean },
  code: string,
): ChipFound[] {
  const read = readChip(code);
  const key = read.ok ? read.value.code : code.trim();
  return (byCode.get(key) ?? []).flatMap((animal): ChipFound[] => {
    const entry = byAnimal.get(animal);
    const number = entry?.numbers.find((one) => one.code === key);
    return entry === undefined || number === undefined || here.has(animal) ? [] : [{ entry, is: number.is }];
  });
}
