import { Temporal } from 'temporal-polyfill';
import type { TestResult } from '../animal/animal.js';
import type { KitType } from '../dosing/formulary.js';
import { type Said, said } from '../said.js';
import { phaseAt, windowOf } from './window.js';

export type Seen = Readonly<Record<string, 'seen' | 'faint' | 'not-seen'>>;

export interface Reading {
  readonly result: Exclude<TestResult, 'abandoned' | 'running'>;
  readonly why: Said;
  /** A mark that counted was faint: a second pair of eyes, and it is said to the medical team. */
  readonly faint: boolean;
  /** Whole seconds from activation to reading. */
  readonly after_s: number;
}

/**
 * What a reading means by the kit's own table, tried in order. A faint mark is a mark. Outside the read window the
 * reading is kept but says nothing (`not-valid`), whatever was seen; inside it, zones that fit no rule, a zone nobody
 * looked at, or one that the kit does not have, are `invalid`. Reactive never means more than reactive: the medical team decides.
 */
export function resultOf(kit: KitType, startedAt: string, readAt: string, seen: Seen): Reading {
  const at = phaseAt(windowOf(kit, startedAt), readAt);
  const ms = Temporal.Instant.from(readAt).epochMilliseconds - Temporal.Instant.from(startedAt).epochMilliseconds;
  const after_s = Math.floor(ms / 1000);
  const faintZones = kit.zones.filter((zone) => seen[zone.id] === 'faint');
  const faint = faintZones.length > 0;
  const times = { after: sayTime(after_s), opens: sayTime(kit.readOpens_s), closes: sayTime(kit.readCloses_s) };
  if (at.phase === 'running') return { result: 'not-valid', why: said('test.read-too-early', times), faint, after_s };
  if (at.phase === 'closed') return { result: 'not-valid', why: said('test.read-too-late', times), faint, after_s };

  const missing = kit.zones.filter((zone) => seen[zone.id] === undefined);
  if (missing.length > 0) {
    const why = said('test.zone-not-looked-at', { zones: { list: missing.map((zone) => zone.name) } });
    return { result: 'invalid', why, faint, after_s };
  }
  const rule = unknownZones(kit, seen).length > 0 ? undefined : ruleFor(kit, seen);
  if (rule === undefined) return { result: 'invalid', why: said('test.pattern-unknown'), faint, after_s };
  return { result: rule.means, why: said(resultKey(rule.means, faint)), faint, after_s };
}

/**
 * Whether the marks would mean reactive in time, or have one that a reactive test has and a negative one has not, whatever
 * the control shows and whatever else was looked at. A mark in a zone that the kit does not have may be one.
 */
export function hasTestMark(kit: KitType, seen: Seen): boolean {
  const marksOf = (means: 'reactive' | 'negative'): string[] =>
    kit.readings
      .filter((rule) => rule.means === means)
      .flatMap(({ when }) => Object.keys(when).filter((zone) => when[zone] === 'mark'));
  const negative = marksOf('negative');
  const telling = [...marksOf('reactive').filter((zone) => !negative.includes(zone)), ...unknownZones(kit, seen)];
  const whole = kit.zones.every((zone) => seen[zone.id] !== undefined);
  return telling.some((zone) => markIn(seen, zone) === 'mark') || (whole && ruleFor(kit, seen)?.means === 'reactive');
}

const unknownZones = (kit: KitType, seen: Seen): string[] =>
  Object.keys(seen).filter((zone) => !kit.zones.some(({ id }) => id === zone));

const ruleFor = (kit: KitType, seen: Seen): KitType['readings'][number] | undefined =>
  kit.readings.find((each) => Object.entries(each.when).every(([zone, wanted]) => markIn(seen, zone) === wanted));

/** A faint mark counts as a mark; a zone that the kit does not have is no mark. */
const markIn = (seen: Seen, zone: string): 'mark' | 'no-mark' =>
  seen[zone] === 'seen' || seen[zone] === 'faint' ? 'mark' : 'no-mark';

const resultKey = (means: 'negative' | 'reactive' | 'invalid', faint: boolean) =>
  means === 'reactive' && faint ? 'test.result-reactive-faint' : sentences[means];

const sentences = {
  negative: 'test.result-negative',
  reactive: 'test.result-reactive',
  invalid: 'test.result-invalid',
} as const;

/** Seconds as minutes and seconds. */
const sayTime = (seconds: number): Said => {
  const size = Math.max(0, seconds);
  return said('test.minutes', { minutes: Math.floor(size / 60), seconds: String(size % 60).padStart(2, '0') });
};
