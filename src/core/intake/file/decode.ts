import { no, type Outcome, ok, type Said, said } from '../../said.js';
import { readUtf8, readUtf16, readWindows1252 } from './code-page.js';

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

export interface Decoded {
  /** Without the byte order mark. */
  readonly text: string;
  readonly encoding: Encoding;
  /** What a person should look at before trusting the letters. */
  readonly doubts: readonly Said[];
}

const startsWith = (bytes: Uint8Array, head: readonly number[]): boolean =>
  head.every((byte, at) => bytes[at] === byte);

/** First bytes of things that are not tables of text, with the sentence that tells what to do. */
const otherFiles: readonly (readonly ['import.is-spreadsheet' | 'import.is-pdf', readonly number[]])[] = [
  ['import.is-spreadsheet', [0x50, 0x4b, 0x03, 0x04]],
  ['import.is-spreadsheet', [0xd0, 0xcf, 0x11, 0xe0]],
  ['import.is-pdf', [0x25, 0x50, 0x44, 0x46]],
];

/**
 * The text of a file: UTF-8 with or without byte order mark, UTF-16, otherwise Windows-1252 with a doubt.
 * Refuses an empty file, a spreadsheet or PDF, and anything else that is not text, with a sentence that says so.
 */
export function decodeText(bytes: Uint8Array): Outcome<Decoded> {
  if (bytes.length === 0) return no('import.empty-file');
  for (const [sentence, head] of otherFiles) if (startsWith(bytes, head)) return no(sentence);
  if (startsWith(bytes, [0xef, 0xbb, 0xbf])) {
    const text = readUtf8(bytes.subarray(3));
    if (text !== null) return checked({ text, encoding: 'utf-8', doubts: [] });
    // Marked as UTF-8 but edited in another code page: the mark is dropped, the letters are doubtful.
    return checked(asWindows1252(bytes.subarray(3)));
  }
  if (startsWith(bytes, [0xff, 0xfe])) return checked(asUtf16(bytes.subarray(2), true, []));
  if (startsWith(bytes, [0xfe, 0xff])) return checked(asUtf16(bytes.subarray(2), false, []));
  const unmarked = unmarkedUtf16(bytes);
  if (unmarked !== null) return checked(asUtf16(bytes, unmarked === 'utf-16le', [said('import.utf16-unmarked')]));
  const text = readUtf8(bytes);
  return checked(text === null ? asWindows1252(bytes) : { text, encoding: 'utf-8', doubts: [] });
}

const asUtf16 = (bytes: Uint8Array, little: boolean, doubts: readonly Said[]): Decoded => ({
  text: readUtf16(bytes, little),
  encoding: little ? 'utf-16le' : 'utf-16be',
  doubts: bytes.length % 2 === 0 ? doubts : [...doubts, said('import.cut-off')],
});

function asWindows1252(bytes: Uint8Array): Decoded {
  const text = readWindows1252(bytes);
  const word = /[\p{L}\p{M}'’-]*[\u0080-\uffff][\p{L}\p{M}'’-]*/u.exec(text)?.[0] ?? '';
  return { text, encoding: 'windows-1252', doubts: [said('import.code-page', { word: word.slice(0, 40) })] };
}

/** Latin text in UTF-16 has a zero in nearly every second byte; text in other code pages has none. */
function unmarkedUtf16(bytes: Uint8Array): Encoding | null {
  const looked = Math.min(bytes.length - (bytes.length % 2), 2000);
  if (looked < 4) return null;
  let even = 0;
  let odd = 0;
  for (let at = 0; at < looked; at += 2) {
    if (bytes[at] === 0) even++;
    if (bytes[at + 1] === 0) odd++;
  }
  const most = looked * 0.4;
  if (odd > most && even === 0) return 'utf-16le';
  return even > most && odd === 0 ? 'utf-16be' : null;
}

/** Control characters other than tab, line ends and form feed do not occur in tables. */
function checked(decoded: Decoded): Outcome<Decoded> {
  const start = decoded.text.slice(0, 20_000);
  if (decoded.text.trim() === '') return no('import.empty-file');
  let controls = 0;
  for (const letter of start) if (letter < ' ' && !'\t\n\r\f'.includes(letter)) controls++;
  if (start.includes('\0') || controls > start.length / 200) return no('import.not-text');
  return ok(decoded);
}
