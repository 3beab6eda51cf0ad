import { z } from 'zod';
import { no, type Outcome, ok, type Said } from '../said.js';
import { type ChipPrefix, controlDigits, controlFits } from './iso-code.js';
import { type ChipClass, readChip, sameChip } from './read-chip.js';
import { decodeTelegram, hexOf } from './telegram.js';

/** One line in of the `chip` calculator: a number as read, or a whole FDX-B telegram of 32 hex characters. */
export const ChipInput = z.union([
  z.strictObject({
    chip: z.string().max(400),
    /** A second reading to compare with. */
    same_as: z.string().max(400).optional(),
    /** Two control digits (ISO 7064 MOD 97-10) copied with the number. */
    control: z.string().max(2).optional(),
  }),
  z.strictObject({ telegram: z.string().max(64) }),
]);
export type ChipInput = z.input<typeof ChipInput>;

/** One line out. */
export interface ChipOutput {
  readonly code: string;
  readonly class: ChipClass;
  readonly prefix: ChipPrefix | null;
  readonly animal_bit: boolean | null;
  readonly data_block: boolean | null;
  readonly warnings: readonly Said[];
  /** Control digits to print beside the number; null for letters. */
  readonly control: string | null;
  readonly same: boolean | null;
  readonly crc: string | null;
  readonly code64: string | null;
  readonly trailer: string | null;
}

/** The `chip` calculator: a reading or telegram to one plain answer, or the sentence why not. */
export function calculateChip(input: z.output<typeof ChipInput>): Outcome<ChipOutput> {
  if ('telegram' in input) return ofTelegram(input.telegram.replace(/\s/g, ''));
  const read = readChip(input.chip);
  if (!read.ok) return read;
  const { code, class: kind, prefix, animalBit, dataBlock, warnings } = read.value;
  if (input.control !== undefined && !controlFits(code, input.control)) return no('chip.control-wrong', { code });
  return ok({
    code,
    class: kind,
    prefix,
    animal_bit: animalBit,
    data_block: dataBlock,
    warnings,
    control: /^\d+$/.test(code) ? controlDigits(code) : null,
    same: input.same_as === undefined ? null : sameChip(code, input.same_as),
    crc: null,
    code64: null,
    trailer: null,
  });
}

function ofTelegram(hex: string): Outcome<ChipOutput> {
  const telegram = decodeTelegram(hex);
  if (!telegram.ok) return telegram;
  const { code, animalBit, dataBlock, crc, code64, trailer } = telegram.value;
  const read = readChip(code);
  if (!read.ok) return read;
  return ok({
    code,
    class: read.value.class,
    prefix: read.value.prefix,
    animal_bit: animalBit,
    data_block: dataBlock,
    warnings: read.value.warnings,
    control: controlDigits(code),
    same: null,
    crc: hexOf(crc, 4),
    code64,
    trailer: hexOf(trailer, 6),
  });
}
