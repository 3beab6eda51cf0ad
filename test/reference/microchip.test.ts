import { crc16kermit } from 'crc';
import { describe, expect, it } from 'vitest';
import { consecutiveBox } from '../../src/core/chip/box.js';
import { controlDigits, fromCode64, prefixOf } from '../../src/core/chip/iso-code.js';
import { readChip } from '../../src/core/chip/read-chip.js';
import { decodeTelegram, hexOf, kermit } from '../../src/core/chip/telegram.js';
import { boxOfChip } from '../../src/log/views/chips/chip-pack.js';
import type { Lot } from '../../src/log/views/shelter.js';
import { loadPart, runPart } from './schema.js';

const bytesOf = (dump: string): number[] => dump.split(' ').map((pair) => Number.parseInt(pair, 16));
const answer = (raw: string): string => {
  const read = readChip(raw);
  return read.ok ? read.value.code : read.why.say;
};

function telegramOf(hex: string) {
  const telegram = decodeTelegram(hex);
  if (!telegram.ok) throw new Error(telegram.why.say);
  return telegram.value;
}

/** Little-endian bytes of a 64-bit code, as they are packed for the check sum. */
const codeBytes = (code64: bigint): number[] =>
  Array.from({ length: 8 }, (_, index) => Number((code64 >> BigInt(8 * index)) & 0xffn));

/** Share, in percent with one decimal, of all one-digit slips and neighbour swaps in a box that the list catches. */
function caughtByBox(first: string, count: number) {
  const list = consecutiveBox(first, count);
  if (!list.ok) throw new Error(list.why.say);
  const box = { id: 'box', of: { is: 'chips', codes: list.value } } as unknown as Lot;
  const tried = { slips: 0, swaps: 0 };
  const caught = { slips: 0, swaps: 0 };
  const attempt = (kind: 'slips' | 'swaps', code: string): void => {
    tried[kind] += 1;
    if (boxOfChip(code, [box]) === null) caught[kind] += 1;
  };
  for (const code of list.value) {
    for (let at = 0; at < 15; at += 1) {
      for (let digit = 0; digit < 10; digit += 1) {
        const slip = code.slice(0, at) + digit + code.slice(at + 1);
        if (slip !== code) attempt('slips', slip);
      }
      const swap = code.slice(0, at) + code.slice(at + 1, at + 2) + (code[at] ?? '') + code.slice(at + 2);
      if (at < 14 && swap !== code) attempt('swaps', swap);
    }
  }
  const share = (kind: 'slips' | 'swaps') => Number(((caught[kind] / tried[kind]) * 100).toFixed(1));
  return { slips: share('slips'), swaps: share('swaps') };
}

runPart('microchip', {
  telegram: (given: { telegram: string }) => {
    const { code, animalBit, dataBlock, crc, trailer, code64 } = telegramOf(given.telegram);
    return { code, animal: animalBit, data: dataBlock, crc: hexOf(crc, 4), trailer: hexOf(trailer, 6), code64 };
  },
  kermit: (given: { bytes: string }) => hexOf(kermit(bytesOf(given.bytes)), 4),
  chip: (given: { raw: string }) => {
    const read = readChip(given.raw);
    if (!read.ok) return read.why.say;
    return given.raw.includes('|')
      ? { code: read.value.code, animal: read.value.animalBit }
      : { code: read.value.code };
  },
  'code-is-text': (given: { raw: string }) => answer(given.raw),
  refused: (given: { raw: string }) => answer(given.raw),
  code64: (given: { code64: string }) => {
    const value = BigInt(`0x${given.code64}`);
    const read = fromCode64(value);
    return {
      code: read?.code,
      animal: read?.animalBit,
      data: read?.dataBlock,
      crc: hexOf(kermit(codeBytes(value)), 4),
    };
  },
  prefix: (given: { code: string }) => prefixOf(given.code).category,
  warned: (given: { raw: string }) => {
    const read = readChip(given.raw);
    return read.ok ? read.value.warnings.map((one) => one.say) : read.why.say;
  },
  control: (given: { code: string }) => controlDigits(given.code),
  'box-catches': (given: { first: string; count: number }) => caughtByBox(given.first, given.count),
});

describe('check sum against the crc library (Verifies: CHIP-R6)', () => {
  const telegrams = loadPart('microchip')
    .groups.flatMap((group) => group.cases)
    .filter((one) => one.check === 'telegram')
    .map((one) => (one.given as { telegram: string }).telegram);
  it.each(telegrams)('%s', (hex) => {
    const { code64, crc } = telegramOf(hex);
    const bytes = codeBytes(BigInt(`0x${code64}`));
    expect(kermit(bytes)).toBe(crc16kermit(Buffer.from(bytes)));
    expect(kermit(bytes)).toBe(crc);
  });
});
