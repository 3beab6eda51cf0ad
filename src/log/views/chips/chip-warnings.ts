import type { Animal } from '../../../core/animal/animal.js';
import { readChip } from '../../../core/chip/read-chip.js';
import { type Said, said } from '../../../core/said.js';
import type { Lot } from '../shelter.js';
import { boxOfChip } from './chip-pack.js';

/** What has to be looked at in a number as it came from a reader; nothing for one that is in order. */
export function warningsOf(raw: string): readonly Said[] {
  const reading = readChip(raw);
  return reading.ok ? reading.value.warnings : [];
}

/** What has to be looked at in the chip an animal carries: all that any reader has told of it, each once. */
export function chipWarnings(animal: Pick<Animal, 'chip' | 'scans'>): Said[] {
  const { chip, scans } = animal;
  if (chip === null) return [];
  const raws = scans.filter((scan) => scan.code === chip.code && scan.raw !== '').map((scan) => scan.raw);
  const all = [chip.code, ...raws].flatMap(warningsOf);
  return all.filter((one, at) => all.findIndex((other) => other.say === one.say) === at);
}

/** A chip in its pack: besides all that, whether it is on the list of a box. */
export function packWarnings(raw: string, code: string, lots: Iterable<Lot>): Said[] {
  const listed = boxOfChip(code, lots) !== null;
  return [...warningsOf(raw), ...(listed ? [] : [said('round.chip.not-listed')])];
}
