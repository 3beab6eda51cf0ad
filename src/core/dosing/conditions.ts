import type { Span } from '../calendar.js';
import { type Said, said } from '../said.js';
import { type Gate, type GateCode, gate } from './gate.js';
import { labelGrams } from './label-weight.js';
import type { ProductCondition } from './product-condition.js';

/** An animal as conditions ask about it, on a day. */
export interface AboutConditions {
  /** What is known of a code of observation on the day, and its last day. */
  readonly seen: (code: string, lasts: Span | null) => Seen;
  readonly sex: 'female' | 'male' | 'unknown';
  readonly neutered: 'yes' | 'no' | 'unknown';
  /** Whether the youngest, or the oldest, that it may be has reached a span on the day. */
  readonly reached: (span: Span, of: 'youngest' | 'oldest') => boolean;
  /** Weight in whole grams, or null. */
  readonly grams: number | null;
  /** Whole days since a product of a class went in last; null for never. */
  readonly daysSince: (classes: readonly string[]) => number | null;
  /** Whole days since a chip was put in last; null for never. */
  readonly daysSinceChip: number | null;
}

interface Seen {
  readonly state: 'present' | 'absent' | 'unknown';
  /** Last day on which it counts; null when open. */
  readonly until: number | null;
}

/** A condition that is so of an animal, or that nobody can decide. */
export interface Found {
  readonly condition: ProductCondition;
  readonly state: 'present' | 'unknown';
  /** Last day on which it is so, as a day number; null when that is not known. */
  readonly until: number | null;
}

/** The conditions of a product that speak against giving it to an animal, and those that nobody can decide, in their order. */
export function conditionsFound(conditions: readonly ProductCondition[], about: AboutConditions): Found[] {
  return conditions.flatMap((condition) => foundOf(condition, about));
}

function foundOf(condition: ProductCondition, about: AboutConditions): Found[] {
  switch (condition.is) {
    case 'seen':
      return seenFound(condition, about);
    case 'age': {
      const young = condition.under !== null && !about.reached(condition.under, 'youngest');
      const old = condition.from !== null && about.reached(condition.from, 'oldest');
      return young || old ? [{ condition, state: 'present', until: null }] : [];
    }
    case 'weight': {
      const { grams } = about;
      if (grams === null) return [{ condition, state: 'unknown', until: null }];
      const light = condition.under !== null && grams < labelGrams(condition.under);
      const heavy = condition.over !== null && grams > labelGrams(condition.over);
      return light || heavy ? [{ condition, state: 'present', until: null }] : [];
    }
    case 'after-chip': {
      const days = about.daysSinceChip;
      return days !== null && days < condition.days ? [{ condition, state: 'present', until: null }] : [];
    }
    case 'after-product': {
      const days = about.daysSince(condition.classes);
      return days !== null && days < condition.days ? [{ condition, state: 'present', until: null }] : [];
    }
  }
}

function seenFound(condition: Extract<ProductCondition, { is: 'seen' }>, about: AboutConditions): Found[] {
  const seen = condition.codes.map((one) => about.seen(one, condition.lasts));
  const present = seen.filter(({ state }) => state === 'present');
  if (present.length > 0) {
    const ends = present.map(({ until }) => until);
    const until = ends.some((end) => end === null) ? null : Math.max(...ends.map((end) => end ?? 0));
    return [{ condition, state: 'present', until }];
  }
  // One code that somebody looked for and did not see answers for its kind.
  const open = seen.every(({ state }) => state === 'unknown') && condition.unknown !== 'go-on';
  return open && concerns(condition, about) ? [{ condition, state: 'unknown', until: null }] : [];
}

function concerns({ concerns: whom }: Extract<ProductCondition, { is: 'seen' }>, about: AboutConditions): boolean {
  if (whom.sex !== undefined && about.sex !== 'unknown' && about.sex !== whom.sex) return false;
  if (whom.unneutered === true && about.neutered === 'yes') return false;
  return whom.from === undefined || about.reached(whom.from, 'oldest');
}

/** The name of the stop that a condition makes. */
export const conditionGate = (condition: ProductCondition): ConditionGate =>
  condition.is === 'seen' ? `if-${condition.kind}` : `if-${condition.is}`;
type ConditionGate = Extract<GateCode, `if-${string}`>;

/** Whether what was found lets nothing be given before somebody has decided or said. */
export const isStop = ({ condition, state }: Found): boolean =>
  state === 'present'
    ? condition.does !== 'show'
    : condition.is === 'seen' && condition.unknown === 'hold' && condition.does !== 'show';

/** What was found, in a sentence: the words of the document, or its question. */
export function foundSaid({ condition, state }: Found): Said {
  const { words, does } = condition;
  if (state === 'unknown' && condition.is === 'weight') return said('dose.gate.if-weight-unknown', { words });
  if (state === 'unknown') {
    return said('dose.gate.if-unknown', { question: (condition.is === 'seen' ? condition.question : '') || words });
  }
  return said(does === 'ask-veterinarian' ? 'dose.gate.if-ask-veterinarian' : 'dose.gate.if-so', { words });
}

/** The gates of what was found; one that nobody can decide names the code by which it is answered. */
export const conditionGates = (found: readonly Found[]): Gate[] =>
  found.map((one) => ({
    ...gate(conditionGate(one.condition), isStop(one) ? 'stop' : 'note', foundSaid(one)),
    ...(one.state === 'unknown' && one.condition.is === 'seen' ? { asks: one.condition.codes[0] ?? '' } : {}),
  }));
