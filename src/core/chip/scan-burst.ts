/**
 * Tells a scan from typing in a stream of key presses, wherever the cursor is. A reader that acts as a keyboard sends
 * its characters a few milliseconds apart and ends with CR, LF, CR LF, Tab or nothing at all.
 *
 *   keys  --(gap <= maxGap)-->  held  --(end key, or pause)-->  a scan if long and fast enough, else typing
 *
 * Pure: feed every key with its time; nothing is held back from the field. When a scan comes out, `typed` says how many
 * characters it has already left in the field that had the focus, so that the caller can take them out again.
 */
export interface BurstState {
  readonly text: string;
  readonly firstAt_ms: number;
  readonly lastAt_ms: number;
  /** A scan has just ended with CR; a LF right behind it belongs to it. */
  readonly endedAt_ms: number | null;
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
}

export const usualBurst: BurstRules = { maxGap_ms: 80, maxMean_ms: 40, minLength: 6, pause_ms: 120 };

export const noBurst: BurstState = { text: '', firstAt_ms: 0, lastAt_ms: 0, endedAt_ms: null };

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
  const follows = state.text !== '' && key.at_ms - state.lastAt_ms <= rules.maxGap_ms;
  const next: BurstState = {
    text: follows ? state.text + key.key : key.key,
    firstAt_ms: follows ? state.firstAt_ms : key.at_ms,
    lastAt_ms: key.at_ms,
    endedAt_ms: null,
  };
  // A scan that ended by silence comes out with the first key after it; that key itself is not part of it.
  return follows ? { state: next, scan: null, swallow: false } : { state: next, scan: pause.scan, swallow: false };
}

/** The state after silence: call from a timer `pause_ms` after the last key. A scan without an end key comes out here. */
export function scanPause(state: BurstState, now_ms: number, rules: BurstRules = usualBurst): BurstStep {
  if (state.text === '' || now_ms - state.lastAt_ms < rules.pause_ms) return { state, scan: null, swallow: false };
  return { state: noBurst, scan: isScan(state, rules) ? scanOf(state.text) : null, swallow: false };
}

function endKey(state: BurstState, at_ms: number, rules: BurstRules): BurstStep {
  if (state.text === '') {
    const belongs = state.endedAt_ms !== null && at_ms - state.endedAt_ms <= rules.maxGap_ms;
    return { state: noBurst, scan: null, swallow: belongs };
  }
  if (at_ms - state.lastAt_ms > rules.pause_ms) {
    // The person pressed Enter after a scan that had ended by silence: the scan comes out, the key does its own work.
    return { state: noBurst, scan: isScan(state, rules) ? scanOf(state.text) : null, swallow: false };
  }
  if (!isScan(state, rules)) return { state: noBurst, scan: null, swallow: false };
  return { state: { ...noBurst, endedAt_ms: at_ms }, scan: scanOf(state.text), swallow: true };
}

function isScan(state: BurstState, rules: BurstRules): boolean {
  const length = [...state.text].length;
  if (length < rules.minLength) return false;
  return (state.lastAt_ms - state.firstAt_ms) / (length - 1) <= rules.maxMean_ms;
}

const scanOf = (text: string): { text: string; typed: number } => ({ text, typed: [...text].length });
