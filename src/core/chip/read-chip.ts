import { derived } from '../derived.js';
import { no, type Outcome, ok, type Said, said } from '../said.js';
import { type ChipPrefix, largestNational, prefixOf } from './iso-code.js';
import { type Found, readFrame, readHex64, readLineForm } from './reader-formats.js';

export type ChipClass =
  /** 15 digits of ISO 11784, 134.2 kHz. */
  | 'iso'
  /** 125 kHz, encrypted kind. */
  | '9-digit'
  /** 125 or 128 kHz, ten characters 0-9 A-F. */
  | '10-character';

export interface ChipReading {
  /** The number as it is kept: digits, or digits and capital A to F. Text, never a number. */
  readonly code: string;
  readonly class: ChipClass;
  /** What the first three digits are; null for chips outside ISO 11784. */
  readonly prefix: ChipPrefix | null;
  /** The animal flag, when the reader tells it. */
  readonly animalBit: boolean | null;
  readonly dataBlock: boolean | null;
  /** Things a person should look at; the number is taken all the same. */
  readonly warnings: readonly Said[];
  /** Exactly what came in. */
  readonly raw: string;
}

/**
 * Reads what a chip reader, a label scan or a person delivers: all forms seen at readers, with prefixes, control
 * characters, separators and doubled reads. Returns the number as text with what to look at, or the sentence why not;
 * never a repaired number (no letter O for a zero, no padded zero).
 */
export function readChip(raw: string): Outcome<ChipReading> {
  const frame = readFrame(bytesIn(raw));
  if (frame !== null) return frame.ok ? isoReading(frame.value, raw) : frame;
  const lines = raw
    .split(/[\r\n]+/)
    .map(withoutControls)
    .filter((line) => line !== '');
  const [first, ...others] = lines;
  if (first === undefined) return no('chip.empty');
  const reading = readLine(first, raw);
  if (!reading.ok) return reading;
  for (const line of others) {
    const again = readLine(line, raw);
    if (!again.ok) return again;
    if (again.value.code !== reading.value.code) {
      return no('chip.two-different', { first: reading.value.code, second: again.value.code });
    }
  }
  return reading;
}

/** Whether two readings or numbers mean the same chip; letters without regard to case, flags and trailer ignored. */
export const sameChip = (a: string, b: string): boolean => chipNumber(a) !== '' && chipNumber(a) === chipNumber(b);

/**
 * The form in which numbers of one chip are equal as texts: the code that was read, else the letters as they came in
 * capitals behind a question mark; empty for nothing.
 */
export const chipNumber = derived((raw: string): string => {
  const read = readChip(raw);
  if (read.ok) return read.value.code;
  return raw.trim() === '' ? '' : `?${raw.trim().toUpperCase()}`;
}, 500);

/** Whether a text is a number just as a reading of it is kept. */
export const isWholeNumber = (code: string): boolean => code !== '' && chipNumber(code) === code;

/** Bytes of a frame that came in as text, or of a hex dump of one ("AA 0F ..."); else none. */
function bytesIn(raw: string): number[] {
  if (raw.charCodeAt(0) === 2 && raw.length === 30) return [...raw].map((letter) => letter.charCodeAt(0));
  const dump = raw.trim();
  if (!/^[0-9A-Fa-f]{2}([ |]+[0-9A-Fa-f]{2}){9,}$/.test(dump)) return [];
  return dump.split(/[ |]+/).map((pair) => Number.parseInt(pair, 16));
}

const withoutControls = (line: string): string =>
  [...line.replace(/[\u00a0\u2007\u202f]/g, ' ')]
    .filter((letter) => letter >= ' ' && letter !== '\u007f')
    .join('')
    .trim();

function readLine(line: string, raw: string): Outcome<ChipReading> {
  if (looksShifted(line)) return no('chip.keyboard-layout', { raw: line });
  const text = withoutPrefixes(line.toUpperCase());
  if (/^\d+(?:[.,]\d+)?E\+\d+$|^\d+[.,]\d+E\d+$/.test(text)) return no('chip.power-of-ten', { raw: line });
  const form = readLineForm(text);
  if (form !== null) return form.ok ? isoReading(form.value, raw) : form;
  const compact = text.replace(/[\s\-._*]/g, '');
  return /^\d+$/.test(compact) ? readDigits(compact, raw) : readLetters(compact, line, raw);
}

/** Bar-code symbology marks (`]C1`), stars, and words that readers and labels put in front. */
function withoutPrefixes(text: string): string {
  let rest = text.replace(/^\][A-Z][0-9A-Z]/, '').replace(/^\*+|\*+$/g, '');
  const word = /^(?:FDX-?[AB]|HDX|ISO(?:\s?1178[45])?|TRANSPONDER|MICROCHIP|CHIP|ID|NUMBER|NO|NR)[\s.:#=-]*/;
  while (word.test(rest)) rest = rest.replace(word, '');
  return rest.trim();
}

function readDigits(digits: string, raw: string): Outcome<ChipReading> {
  const single = withoutDoubling(digits);
  if (single === null) return no('chip.glued-different', { raw: digits });
  switch (single.length) {
    case 15:
      return isoReading({ code: single, animalBit: null, dataBlock: null }, raw);
    case 16: {
      // Some readers print the prefix with four digits; only a zero in front may go, and only if the rest is sound.
      const rest = isoReading({ code: single.slice(1), animalBit: null, dataBlock: null }, raw);
      if (single.startsWith('0') && rest.ok) return rest;
      const hex = readHex64(single);
      return hex.ok ? isoReading(hex.value, raw) : no('chip.length', { digits: 16 });
    }
    case 9:
      return other(single, '9-digit', [said('chip.nine-digits')], raw);
    case 10:
      return other(single, '10-character', [said('chip.ten-digits')], raw);
    case 13:
    case 14:
      return no('chip.zero-missing', { digits: single.length });
    default:
      return no('chip.length', { digits: single.length });
  }
}

/** One read out of two or three that arrived glued together; null when the parts differ. */
function withoutDoubling(text: string): string | null {
  for (const size of [15, 10, 9]) {
    const times = text.length / size;
    if (times !== 2 && times !== 3) continue;
    const first = text.slice(0, size);
    if (first.repeat(times) === text) return first;
  }
  return text.length === 30 || text.length === 45 ? null : text;
}

function readLetters(compact: string, line: string, raw: string): Outcome<ChipReading> {
  const single = withoutDoubling(compact) ?? compact;
  if (/^[0-9A-F]{10}$/.test(single)) return other(single, '10-character', tenCharacterWarnings(single), raw);
  if (/^[0-9A-F]{16}$/.test(single)) {
    const hex = readHex64(single);
    return hex.ok ? isoReading(hex.value, raw) : hex;
  }
  const letter = /[A-Z]/.exec(single.length === 10 ? single.replace(/[A-F]/g, '0') : single);
  if (letter !== null && /^[0-9A-Z]{9,16}$/.test(single)) {
    return no('chip.letter-inside', { letter: letter[0], place: letter.index + 1, raw: line });
  }
  return no('chip.unreadable', { raw: line });
}

const other = (code: string, kind: ChipClass, warnings: readonly Said[], raw: string): Outcome<ChipReading> =>
  ok({ code, class: kind, prefix: null, animalBit: null, dataBlock: null, warnings, raw });

/** As five 7-bit bytes every pair is 00 to 7F (ISO 11785 Annex A); others are tags that are no pet chips. */
const tenCharacterWarnings = (code: string): Said[] =>
  /^(?:[0-7].){5}$/.test(code) ? [] : [said('chip.not-pet-chip')];

/** Checks 15 digits: prefix, the 38-bit limit, the marks of a spreadsheet; collects what to look at. */
function isoReading({ code, animalBit, dataBlock }: Found, raw: string): Outcome<ChipReading> {
  if (!/^\d{15}$/.test(code)) return no('chip.length', { digits: code.length });
  if (code.startsWith('000')) return no('chip.prefix-zero', { code });
  if (BigInt(code.slice(3)) > largestNational) return no('chip.national-too-big', { code });
  if (code.endsWith('000000')) return no('chip.rounded', { code });
  const prefix = prefixOf(code);
  const warnings: Said[] = [];
  if (prefix.category === 'test') warnings.push(said('chip.test-number', { code }));
  if (prefix.category === 'not-assigned') warnings.push(said('chip.prefix-not-assigned', { prefix: prefix.digits }));
  if (animalBit === false) warnings.push(said('chip.animal-bit'));
  // ICAR warning: this number was given to more than one animal.
  if (code === '900155000101234') warnings.push(said('chip.known-misuse', { code }));
  return ok({ code, class: 'iso', prefix, animalBit, dataBlock, warnings, raw });
}

/** Signs that the number row gives on French, German, British, American, Spanish, Italian and Czech keyboards. */
const numberRow = '&é"\'(-è_çà!@#$%^*)§/=£·+ěščřžýáí';

/** A code typed by a reader that is set to another keyboard: only signs of the number row, no digit at all. */
function looksShifted(line: string): boolean {
  const letters = [...line.toLowerCase()];
  return letters.length >= 3 && new Set(letters).size > 1 && letters.every((letter) => numberRow.includes(letter));
}
