import { no, type Outcome, ok } from '../said.js';
import { fromCode64, type IsoCode } from './iso-code.js';

/**
 * CRC-16/KERMIT (polynomial 0x1021, start 0, reflected in and out, no final xor) over bytes, as 16 bits. It protects
 * the air link of ISO 11785 when each byte is packed least significant bit first.
 */
export function kermit(bytes: readonly number[]): number {
  let crc = 0;
  for (const byte of bytes) {
    crc ^= byte & 0xff;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0x8408 : crc >>> 1;
  }
  return crc;
}

export interface Telegram extends IsoCode {
  readonly crc: number;
  /** 24 bits, outside the CRC and never part of the identity (temperature chips put data here). */
  readonly trailer: number;
  /** 64-bit code, hex. */
  readonly code64: string;
}

/** Little-endian bytes as one number. */
const littleEndian = (bytes: readonly number[]): bigint =>
  bytes.reduceRight((value, byte) => (value << 8n) | BigInt(byte), 0n);

export const hexOf = (value: bigint | number, digits: number): string =>
  value.toString(16).toUpperCase().padStart(digits, '0');

/** Code and CRC of ten bytes, eight of code and two of CRC, each packed least significant bit first. */
export function decodeCodeAndCrc(bytes: readonly number[]): Outcome<Omit<Telegram, 'trailer'>> {
  if (bytes.length !== 10) return no('chip.telegram-length');
  const crc = kermit(bytes.slice(0, 8));
  if (crc !== Number(littleEndian(bytes.slice(8)))) return no('chip.telegram-crc');
  const value = littleEndian(bytes.slice(0, 8));
  const fields = fromCode64(value);
  if (fields === null) return no('chip.prefix-too-big');
  const { code, animalBit, dataBlock } = fields;
  return ok({ code, animalBit, dataBlock, crc, code64: hexOf(value, 16) });
}

/**
 * Decodes one FDX-B telegram of ISO 11785 given as 32 hex characters, first transmitted bit leftmost: header
 * 00000000001, then 13 groups of eight bits (least significant first) each closed by a 1: 8 code, 2 CRC, 3 trailer.
 * Refuses a wrong length, header, control bit or CRC with a sentence.
 */
export function decodeTelegram(hex: string): Outcome<Telegram> {
  if (!/^[0-9A-Fa-f]{32}$/.test(hex)) return no('chip.telegram-length');
  const bits = BigInt(`0x${hex}`).toString(2).padStart(128, '0');
  if (!bits.startsWith('00000000001')) return no('chip.telegram-header');
  const bytes: number[] = [];
  for (let group = 0; group < 13; group += 1) {
    const at = 11 + group * 9;
    if (bits[at + 8] !== '1') return no('chip.telegram-header');
    bytes.push(Number.parseInt([...bits.slice(at, at + 8)].reverse().join(''), 2));
  }
  const decoded = decodeCodeAndCrc(bytes.slice(0, 10));
  if (!decoded.ok) return decoded;
  return ok({ ...decoded.value, trailer: Number(littleEndian(bytes.slice(10))) });
}
