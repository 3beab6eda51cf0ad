import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readUtf8, readUtf16, readWindows1252, writeWindows1252 } from './code-page.js';
import { decodeText } from './decode.js';

const bytes = (...values: number[]) => Uint8Array.from(values);
const ascii = (text: string) => Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)));
const utf16 = (text: string, little: boolean) =>
  Uint8Array.from(
    [...Array(text.length).keys()].flatMap((at) => {
      const unit = text.charCodeAt(at);
      return little ? [unit & 0xff, unit >> 8] : [unit >> 8, unit & 0xff];
    }),
  );

// The runtime's own decoder (WHATWG Encoding Standard) is the outside check. Verifies: IMP-R1
describe('code pages against the platform', () => {
  test('any bytes: UTF-8 is read exactly when the platform reads it, with the same text', () => {
    const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
    const near = fc.array(
      fc.constantFrom(0x41, 0x80, 0xbf, 0xc2, 0xe0, 0xa0, 0xed, 0x9f, 0xf0, 0x90, 0xf4, 0x8f, 0xff),
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.uint8Array({ maxLength: 12 }),
          near.map((all) => Uint8Array.from(all)),
        ),
        (all) => {
          let expected: string | null = null;
          try {
            expected = strict.decode(all);
          } catch {}
          expect(readUtf8(all)).toBe(expected);
        },
      ),
      { numRuns: 3000 },
    );
  });
  test('any text survives UTF-8 and UTF-16', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
        expect(readUtf8(new TextEncoder().encode(text))).toBe(text);
        expect(readUtf16(utf16(text, true), true)).toBe(text);
        expect(readUtf16(utf16(text, false), false)).toBe(text);
      }),
    );
  });
  test('a long file is read in pieces', () => {
    const text = 'Céline,1\n'.repeat(20_000);
    expect(readUtf8(new TextEncoder().encode(text))).toBe(text);
  });
  test('Windows-1252: letters of the upper half, and back', () => {
    const all = Uint8Array.from({ length: 256 }, (_, byte) => byte);
    expect(writeWindows1252(readWindows1252(all))).toEqual(all);
    // From the index of the Encoding Standard: 80 is the euro sign, 8A is S with caron, 9F is Y with diaeresis.
    expect(readWindows1252(bytes(0x80, 0x8a, 0x9f, 0xe9))).toBe('€ŠŸé');
    expect(writeWindows1252('Łatka')).toBeNull();
  });
});

describe('the text of a file (Verifies: IMP-R1)', () => {
  const text = (raw: Uint8Array) => {
    const decoded = decodeText(raw);
    return decoded.ok
      ? [decoded.value.text, decoded.value.encoding, decoded.value.doubts.map((doubt) => doubt.say)]
      : decoded.why.say;
  };
  test.each([
    ['UTF-8', new TextEncoder().encode('Jalapeño'), ['Jalapeño', 'utf-8', []]],
    ['UTF-8 with mark', bytes(0xef, 0xbb, 0xbf, ...ascii('Animal ID')), ['Animal ID', 'utf-8', []]],
    ['UTF-16 little-endian', bytes(0xff, 0xfe, ...utf16('Pip\nŁatka', true)), ['Pip\nŁatka', 'utf-16le', []]],
    ['UTF-16 big-endian', bytes(0xfe, 0xff, ...utf16('Pip\n猫', false)), ['Pip\n猫', 'utf-16be', []]],
    ['UTF-16 without mark', utf16('Name;Id\nPip;1', true), ['Name;Id\nPip;1', 'utf-16le', ['import.utf16-unmarked']]],
    ['UTF-16 cut off', bytes(0xff, 0xfe, ...utf16('Pip', true), 0x41), ['Pip', 'utf-16le', ['import.cut-off']]],
    ['Windows-1252', ascii('Name\nC\u00e9line'), ['Name\nCéline', 'windows-1252', ['import.code-page']]],
    [
      'a mark before another code page',
      bytes(0xef, 0xbb, 0xbf, ...ascii('C\u00e9line')),
      ['Céline', 'windows-1252', ['import.code-page']],
    ],
    ['nothing', bytes(), 'import.empty-file'],
    ['only blanks', ascii(' \r\n \n'), 'import.empty-file'],
    ['a spreadsheet', bytes(0x50, 0x4b, 3, 4, 20, 0), 'import.is-spreadsheet'],
    ['an old spreadsheet', bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1), 'import.is-spreadsheet'],
    ['a PDF', ascii('%PDF-1.7'), 'import.is-pdf'],
    ['a picture', bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49), 'import.not-text'],
  ])('%s', (_, raw, expected) => {
    expect(text(raw)).toEqual(expected);
  });
  test('the doubt shows a word with the letter in question', () => {
    const decoded = decodeText(ascii('Name\nPip\nC\u00e9line'));
    expect(decoded.ok && decoded.value.doubts[0]?.with).toEqual({ word: 'Céline' });
  });
  test('any bytes: an answer, never an exception', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (raw) => typeof decodeText(raw).ok === 'boolean'));
  });
});
