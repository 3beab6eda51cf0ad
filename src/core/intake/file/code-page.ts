/**
 * The Windows-1252 code page as the WHATWG Encoding Standard has it: the five bytes without a letter stand for the
 * control character of the same number. A table of our own, because TextDecoder of some Node versions reads the bytes
 * 80 to 9F of this code page as Latin-1, and because the core has no ambient types.
 */
const letters80to9f =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f' +
  '\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

const byteOfLetter = new Map([...letters80to9f].map((letter, index) => [letter, 0x80 + index]));

/** Text of Windows-1252 bytes; every byte has a reading, so this never fails and never proves the encoding. */
export const readWindows1252 = (bytes: Uint8Array): string =>
  fromUnits(bytes.length, (at) => {
    const byte = bytes[at] ?? 0;
    return byte >= 0x80 && byte <= 0x9f ? letters80to9f.charCodeAt(byte - 0x80) : byte;
  });

/** The Windows-1252 bytes of a text, or null when a letter is not in that code page. */
export function writeWindows1252(text: string): Uint8Array | null {
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    const byte = unit < 0x80 || (unit >= 0xa0 && unit <= 0xff) ? unit : byteOfLetter.get(text.charAt(at));
    if (byte === undefined) return null;
    bytes[at] = byte;
  }
  return bytes;
}

/**
 * Text of UTF-8 bytes, or null at the first byte that is not UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing
 * above U+10FFFF).
 */
export function readUtf8(bytes: Uint8Array): string | null {
  const units = new Uint16Array(bytes.length);
  let used = 0;
  for (let at = 0; at < bytes.length; ) {
    const first = bytes[at] ?? 0;
    const length = first < 0x80 ? 1 : first < 0xc2 ? 0 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : first < 0xf5 ? 4 : 0;
    if (length === 0 || at + length > bytes.length) return null;
    let point = length === 1 ? first : first & (0xff >> (length + 1));
    for (let next = at + 1; next < at + length; next++) {
      const byte = bytes[next] ?? 0;
      if ((byte & 0xc0) !== 0x80) return null;
      point = (point << 6) | (byte & 0x3f);
    }
    if ((length === 3 && point < 0x800) || (length === 4 && point < 0x1_0000)) return null;
    if (point > 0x10_ffff || (point >= 0xd800 && point <= 0xdfff)) return null;
    if (point >= 0x1_0000) {
      units[used++] = 0xd800 + ((point - 0x1_0000) >> 10);
      units[used++] = 0xdc00 + ((point - 0x1_0000) & 0x3ff);
    } else units[used++] = point;
    at += length;
  }
  return fromUnits(used, (at) => units[at] ?? 0);
}

/** Text of UTF-16 bytes; an odd byte at the end is left out. */
export const readUtf16 = (bytes: Uint8Array, littleEndian: boolean): string =>
  fromUnits(bytes.length >> 1, (at) => {
    const low = bytes[2 * at + (littleEndian ? 0 : 1)] ?? 0;
    const high = bytes[2 * at + (littleEndian ? 1 : 0)] ?? 0;
    return (high << 8) | low;
  });

function fromUnits(count: number, unitAt: (at: number) => number): string {
  const parts: string[] = [];
  // In pieces: a call with too many arguments overflows the stack.
  for (let start = 0; start < count; start += 4096) {
    const piece = Array.from({ length: Math.min(4096, count - start) }, (_, at) => unitAt(start + at));
    parts.push(String.fromCharCode(...piece));
  }
  return parts.join('');
}
