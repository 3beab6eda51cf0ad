import type { AnimalId, RoundId, ScheduleId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { RoundFacts } from '../views/round-facts.js';

/** Thirty signs, without the letters that a hand or an eye takes for a figure; those are read as the figure. */
const signs = '0123456789ACDEFGHJKMNPQRTUVWXY';
const meant: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1', Z: '2', S: '5', B: '8' };
/** Letters and figures of the round, of the line's number, and the check at the end; an L in front says what it is. */
const [ofRound, ofLine] = [4, 2];
const shape = new RegExp(`^[L1I][0-9A-Z]{${ofRound + ofLine + 1}}$`);

/** A line of a treatment sheet that a code stands for. */
export interface CodedLine {
  readonly round: RoundId;
  readonly animal: AnimalId;
  readonly schedule: ScheduleId;
  readonly number: number;
}

/** The lines of a round numbered from 1, in the order in which they were laid down; the numbers never change. */
export const numberedLines = (facts: Pick<RoundFacts, 'id' | 'plan'>): CodedLine[] =>
  facts.plan.lines
    .flatMap(({ animal, schedules }) => schedules.map((schedule) => ({ animal, schedule })))
    .map((line, i) => ({ ...line, round: facts.id, number: i + 1 }));

/** `L` + 4 signs of the round + 2 of the line + 1 check. A round has up to 899 lines; of more, a code would fit two. */
export function codeOfLine(round: RoundId, number: number): string {
  const own = shortName(round) + inSigns(number, ofLine);
  return `L${own}${checkOf(own)}`;
}

/**
 * The line that a scanned or typed code stands for, or why there is none. Blanks and small letters do not matter, nor
 * does a sign that a hand takes for another: a code has only one of each such pair, so that nothing is guessed.
 */
export function readLineCode(text: string, rounds: Iterable<Pick<RoundFacts, 'id' | 'plan'>>): Outcome<CodedLine> {
  const typed = text.replace(/[\s-]+/g, '').toUpperCase();
  if (!shape.test(typed)) return no('ribbon.code.other', { code: text.trim().slice(0, 40) });
  const code = `L${[...typed.slice(1)].map((sign) => meant[sign] ?? sign).join('')}`;
  const own = code.slice(1, -1);
  if (checkOf(own) !== code.at(-1)) return no('ribbon.code.misread', { code });
  const found = [...rounds].filter((round) => shortName(round.id) === own.slice(0, ofRound));
  const lines = found.flatMap((round) =>
    numberedLines(round).filter((line) => inSigns(line.number, ofLine) === own.slice(ofRound)),
  );
  const [line] = lines;
  if (line === undefined) return no('ribbon.code.unknown', { code });
  return lines.length > 1 ? no('ribbon.code.two', { code }) : ok(line);
}

/**
 * Check sign by the hybrid system of ISO/IEC 7064 over an alphabet of a number of signs that is one below a prime: with
 * the 36 of the standard it is MOD 37,36, with the 30 of these codes MOD 31,30. Catches every single wrong sign and
 * nearly every exchange of two.
 */
export function checkOf(text: string, alphabet: string = signs): string {
  const size = alphabet.length;
  let product = size;
  for (const sign of text) {
    const sum = (product + Math.max(0, alphabet.indexOf(sign))) % size;
    product = ((sum === 0 ? size : sum) * 2) % (size + 1);
  }
  return alphabet[(size + 1 - product) % size] ?? '0';
}

/** FNV-1a over the id, as four signs: short enough for a bar code, and a round of another shelter hardly ever fits. */
function shortName(round: string): string {
  let hash = 0x811c9dc5;
  for (const letter of round) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return inSigns((hash >>> 0) % signs.length ** ofRound, ofRound);
}

function inSigns(number: number, length: number): string {
  let [rest, text] = [number, ''];
  for (let i = 0; i < length; i += 1) {
    text = (signs[rest % signs.length] ?? '0') + text;
    rest = Math.floor(rest / signs.length);
  }
  return text;
}
