import { no, type Outcome, ok } from '../said.js';
import { fromCode64, type IsoCode, prefixOf } from './iso-code.js';
import { decodeCodeAndCrc } from './telegram.js';

/** A 15-digit number as some reader packs it, before it has been checked. */
export type Found = IsoCode;
const found = (code: string, animalBit: boolean | null = null, dataBlock: boolean | null = null): Found => ({
  code,
  animalBit,
  dataBlock,
});

const xor = (bytes: readonly number[]): number => bytes.reduce((sum, byte) => sum ^ byte, 0);
const reversed = (text: string): string => [...text].reverse().join('');
const paddedCode = (prefix: number | bigint, national: number | bigint): string =>
  `${String(prefix).padStart(3, '0')}${String(national).padStart(12, '0')}`;

/**
 * Frames of reader modules as bytes; null when it is none of them. A frame with a wrong check byte is refused.
 *
 *   AA .. BB     country and national number, most significant byte first, xor of all between
 *   02 01 00 0A  eight code bytes and two CRC bytes, block check over everything before it, 03
 *   02 01 00 0C  decimal digits packed two per byte: six national, two country
 *   02 + 26 + ..  hex digits as ASCII, least significant first: 10 national, 4 country, data flag, animal flag; xor,
 *                inverted xor, 03
 *   ten bytes    code and CRC alone
 */
export function readFrame(bytes: readonly number[]): Outcome<Found> | null {
  const [first, , third] = bytes;
  const last = bytes.at(-1);
  if (first === 0xaa && last === 0xbb && bytes.length === 13) {
    if (xor(bytes.slice(1, 11)) !== bytes[11]) return no('chip.frame-check');
    const hex = bytes.slice(4, 11).map((byte) => byte.toString(16).padStart(2, '0'));
    return ok(found(paddedCode(Number(`0x${hex.slice(0, 2).join('')}`), BigInt(`0x${hex.slice(2).join('')}`))));
  }
  if (first === 0x02 && last === 0x03 && bytes.length === 30) return readAsciiHexFrame(bytes);
  if (first === 0x02 && last === 0x03 && third === 0x00) {
    if (xor(bytes.slice(0, -2)) !== bytes.at(-2)) return no('chip.frame-check');
    const data = bytes.slice(4, -2);
    if (data.length === 10) return decodeCodeAndCrc(data);
    if (data.length === 12) {
      const digits = data.map((byte) => byte.toString(16).padStart(2, '0')).join('');
      if (!/^\d{12}0\d{3}/.test(digits)) return no('chip.frame-check');
      return ok(found(`${digits.slice(13, 16)}${digits.slice(0, 12)}`));
    }
    return null;
  }
  return bytes.length === 10 ? decodeCodeAndCrc(bytes) : null;
}

function readAsciiHexFrame(bytes: readonly number[]): Outcome<Found> {
  const body = bytes.slice(1, 27);
  const check = xor(body);
  if (check !== bytes[27] || (check ^ 0xff) !== bytes[28]) return no('chip.frame-check');
  const text = String.fromCharCode(...body);
  if (!/^[0-9A-Fa-f]{26}$/.test(text)) return no('chip.frame-check');
  const national = BigInt(`0x${reversed(text.slice(0, 10))}`);
  const prefix = Number(`0x${reversed(text.slice(10, 14))}`);
  if (prefix > 999) return no('chip.prefix-too-big');
  return ok(found(paddedCode(prefix, national), text[15] === '1', text[14] === '1'));
}

/**
 * One line of text in a form that only a reader writes; null when it is none of them. Text is upper case and trimmed.
 *
 *   LA 982 000001088420              line mode, animal tag; optionally reserved field and data flag in front
 *   LR 0006 ...                      industrial tag: refused
 *   A00999000000112233               animal flag, data flag, four-digit country, twelve digits
 *   3E7.1CBE991A14                   hex prefix and hex national number
 */
export function readLineForm(text: string): Outcome<Found> | null {
  const line = /^LA\s+(?:\d{5}\s+(\d)\s+)?(\d{3})\s+(\d{12})$/.exec(text);
  if (line) return ok(found(`${line[2]}${line[3]}`, true, line[1] === undefined ? null : line[1] === '1'));
  if (/^LR\s+\d/.test(text)) return no('chip.industrial');
  const flagged = /^([A0])([D0])0(\d{15})$/.exec(text);
  if (flagged) return ok(found(flagged[3] ?? '', flagged[1] === 'A', flagged[2] === 'D'));
  const dotted = /^([0-9A-F]{3})\.([0-9A-F]{10})$/.exec(text);
  if (dotted) {
    const prefix = Number(`0x${dotted[1]}`);
    return prefix > 999 ? no('chip.prefix-too-big') : ok(found(paddedCode(prefix, BigInt(`0x${dotted[2]}`))));
  }
  return null;
}

/**
 * Sixteen hex digits in either bit order. The right one has reserved bits zero and a prefix that is assigned; when both
 * orders or neither pass, it is refused, never guessed.
 */
export function readHex64(hex: string): Outcome<Found> {
  const value = BigInt(`0x${hex}`);
  const wire = BigInt(`0b${reversed(value.toString(2).padStart(64, '0'))}`);
  const passing = [value, wire].flatMap((each) => {
    const fields = fromCode64(each);
    const assigned = fields !== null && prefixOf(fields.code).category !== 'not-assigned';
    return fields !== null && assigned && fields.reserved === 0 ? [fields] : [];
  });
  const [one, other] = passing;
  if (one === undefined || (other !== undefined && other.code !== one.code)) return no('chip.hex-order');
  return ok(found(one.code, one.animalBit, one.dataBlock));
}
