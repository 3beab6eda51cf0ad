/**
 * Tells a scan from typing in a stream of key presses, wherever the cursor is. A reader that acts as a keyboard sends
 * its characters a few milliseconds apart and ends with CR, LF, CR LF, Tab or nothing at all.
 *
 *   keys  --(gap <= maxGap)-->  held  --(end key, or pause)-->  a scan if long and fast enough, else typing
 *
 * A busy page hears keys late, but their own times stay true: a key that was struck right behind a scan that silence
 * had ended shows that it was only a piece, and the scan goes on as one.
 *
 * Pure: feed every key with its time; nothing is held back from the field. When a scan comes out, `typed` says how many
 * characters it has already left in the field that had the focus, so that the caller can take them out again.
 */
export interface BurstState {
  readonly text: string;
  readonly firstAt_ms: number;
  readonly lastAt_ms: number;
  /** The longest time between two of its characters. */
  readonly longest_ms: number;
  /** A scan has just ended with CR; a LF right behind it belongs to it. */
  readonly endedAt_ms: number | null;
  /** How many characters came out before, as a piece that silence had ended; they are in no field any more. */
  readonly told: number;
  /** What silence has just ended: a key struck right behind it belongs to it. */
  readonly ended: Pick<BurstState, 'text' | 'firstAt_ms' | 'lastAt_ms' | 'longest_ms' | 'told'> | null;
}

export interface BurstKey {
  /** As browsers name it: one character, or `Enter`, `Tab`, `Shift` ... */
  readonly key: string;
  /** Milliseconds of any steady clock. */
  readonly at_ms: number;
  /** A held key that repeats itself is never a scan. */
  readonly repeat?: boolean;
}

export interface BurstRules {
  /** Longest time between two characters of one scan. */
  readonly maxGap_ms: number;
  /** Longest mean time between characters; people do not keep this up over so many keys. */
  readonly maxMean_ms: number;
  readonly minLength: number;
  /** A scan without an end key ends after this much silence. */
  readonly pause_ms: number;
  /** Slower than this mean, only what looks like a number is a scan. */
  readonly anyText_ms: number;
  /** Slower than that, only whole chip numbers at a steady pace are scans: people type numbers here. */
  readonly wholeAndSteady?: boolean;
}

export const usualBurst: BurstRules = { maxGap_ms: 80, maxMean_ms: 40, minLength: 6, pause_ms: 120, anyText_ms: 40 };

/** While no field takes what is typed, nobody is typing: slow readers are heard, too (110 ms a key have been seen). */
export const slowBurst: BurstRules = { maxGap_ms: 300, maxMean_ms: 200, minLength: 6, pause_ms: 400, anyText_ms: 40 };

/** In a field for numbers a slow reader is told from a person by a whole number, struck like clockwork (ours). */
export const numberBurst: BurstRules = {
  maxGap_ms: 160,
  maxMean_ms: 115,
  minLength: 6,
  pause_ms: 250,
  anyText_ms: 40,
  wholeAndSteady: true,
};

export const noBurst: BurstState = {
  text: '',
  firstAt_ms: 0,
  lastAt_ms: 0,
  longest_ms: 0,
  endedAt_ms: null,
  told: 0,
  ended: null,
};

export interface BurstStep {
  readonly state: BurstState;
  /** The characters of a scan that has just ended, else null. */
  readonly scan: { readonly text: string; readonly typed: number } | null;
  /** True when this key ended a scan and must not do its own work (submit a form, move the focus). */
  readonly swallow: boolean;
}

const carriesNothing = new Set(['Shift', 'CapsLock', 'NumLock', 'AltGraph', 'Process', 'Unidentified']);
const isEnd = (key: string): boolean => ['Enter', 'Tab', '\r', '\n', '\r\n', '\t'].includes(key);

/** The next state after one key. */
export function scanBurst(state: BurstState, key: BurstKey, rules: BurstRules = usualBurst): BurstStep {
  if (carriesNothing.has(key.key)) return { state, scan: null, swallow: false };
  if (isEnd(key.key)) return endKey(state, key.at_ms, rules);
  if ([...key.key].length !== 1 || key.repeat === true) return { state: noBurst, scan: null, swallow: false };
  const pause = scanPause(state, key.at_ms, rules);
  const piece = state.text === '' ? state.ended : null;
  const before = piece ?? state;
  const follows = before.text !== '' && key.at_ms - before.lastAt_ms <= rules.maxGap_ms;
  const next: BurstState = {
    ...noBurst,
    text: follows ? before.text + key.key : key.key,
    firstAt_ms: follows ? before.firstAt_ms : key.at_ms,
    lastAt_ms: key.at_ms,
    longest_ms: follows ? Math.max(before.longest_ms, key.at_ms - before.lastAt_ms) : 0,
    told: follows ? before.told : 0,
  };
  // A scan that ended by silence comes out with the first key after it; that key itself is not part of it.
  return follows ? { state: next, scan: null, swallow: false } : { state: next, scan: pause.scan, swallow: false };
}

/** The state after silence: call from a timer `pause_ms` after the last key. A scan without an end key comes out here. */
export function scanPause(state: BurstState, now_ms: number, rules: BurstRules = usualBurst): BurstStep {
  if (state.text === '' || now_ms - state.lastAt_ms < rules.pause_ms) return { state, scan: null, swallow: false };
  const { text, firstAt_ms, lastAt_ms, longest_ms } = state;
  const scan = isScan(state, rules) ? scanOf(state) : null;
  const told = scan === null ? state.told : [...text].length;
  return { state: { ...noBurst, ended: { text, firstAt_ms, lastAt_ms, longest_ms, told } }, scan, swallow: false };
}

function endKey(state: BurstState, at_ms: number, rules: BurstRules): BurstStep {
  if (state.text === '') {
    const late = state.ended !== null && state.ended.told > 0 && at_ms - state.ended.lastAt_ms <= rules.maxGap_ms;
    const belongs = late || (state.endedAt_ms !== null && at_ms - state.endedAt_ms <= rules.maxGap_ms);
    return { state: noBurst, scan: null, swallow: belongs };
  }
  if (at_ms - state.lastAt_ms > rules.pause_ms) {
    // The person pressed Enter after a scan that had ended by silence: the scan comes out, the key does its own work.
    return { state: noBurst, scan: isScan(state, rules) ? scanOf(state) : null, swallow: false };
  }
  if (!isScan(state, rules)) return { state: noBurst, scan: null, swallow: false };
  return { state: { ...noBurst, endedAt_ms: at_ms }, scan: scanOf(state), swallow: true };
}

function isScan(state: BurstState, rules: BurstRules): boolean {
  const length = [...state.text].length;
  if (length < rules.minLength) return false;
  const mean = (state.lastAt_ms - state.firstAt_ms) / (length - 1);
  if (mean > rules.maxMean_ms) return false;
  if (mean <= rules.anyText_ms) return true;
  if (rules.wholeAndSteady !== true) return looksLikeNumber(state.text);
  return state.longest_ms <= 1.25 * mean + 10 && isWhole(state.text);
}

/** The lengths of the numbers that readChip knows; a weight has at most six digits. */
const isWhole = (text: string): boolean => /^(?:\d{9}|\d{10}|\d{15})$/.test(text.replace(/[.\s-]/g, ''));

const looksLikeNumber = (text: string): boolean =>
  /^[0-9A-F*.\s-]+$/i.test(text) && text.replace(/\D/g, '').length >= 6;

const scanOf = ({ text, told }: BurstState): { text: string; typed: number } => ({
  text,
  typed: [...text].length - told,
});
