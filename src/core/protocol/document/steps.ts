import type { Span } from '../../calendar.js';
import { derived } from '../../derived.js';
import type { SourceId } from '../../ids.js';
import { type Said, said } from '../../said.js';
import type { Interval, IntervalStart, SourcedAge, SourcedSpan, Target } from './document.js';
import { spanSaid, spanText } from './spans.js';

type SpanRule = 'minimum-age' | 'recommended-age' | 'late-age' | 'maximum-age' | 'end-age' | 'apart';
type IntervalRule = 'minimum-interval' | 'recommended-interval' | 'late-interval';

/** What a rule says whatever the animal is: worked out once for each value of the signed document. */
export interface StepKind {
  readonly rule: 'born' | 'arrival' | 'seen' | 'last-done' | SpanRule | IntervalRule;
  readonly span: Span | null;
  readonly source: SourceId | null;
  /** For an interval: what it is counted from. */
  readonly what: IntervalStart['is'] | null;
  /** The span as text for machines, and the step in words. */
  readonly value: string;
  readonly words: Said;
  /** The span in words. */
  readonly length: Said;
}

const plain = (rule: Exclude<StepKind['rule'], SpanRule | IntervalRule>): StepKind => ({
  rule,
  span: null,
  source: null,
  what: null,
  value: '',
  words: said(`due.step.${rule}`),
  length: spanSaid({}),
});

export const plainStep = {
  born: plain('born'),
  arrival: plain('arrival'),
  seen: plain('seen'),
  'last-done': plain('last-done'),
} as const;

/** What an interval is counted from. */
export const sinceSaid = (what: IntervalStart['is']): Said => said(`due.since.${what}`);

export function spanStep(rule: SpanRule, span: Span, source: SourceId): StepKind {
  const length = spanSaid(span);
  const words = said(`due.step.${rule}`, { span: length });
  return { rule, span, source, what: null, value: spanText(span), words, length };
}

function intervalStep(rule: IntervalRule, span: Span, source: SourceId, what: IntervalStart['is']): StepKind {
  const length = spanSaid(span);
  const words = said(`due.step.${rule}`, { span: length, since: sinceSaid(what) });
  return { rule, span, source, what, value: spanText(span), words, length };
}

/** A limit of a target with the step it makes. */
export interface Limit {
  readonly span: Span;
  readonly of: SourcedAge['of'];
  readonly kind: StepKind;
}

export interface TargetLimits {
  readonly age: {
    readonly least: Limit | null;
    readonly earliestRecommended: Limit | null;
    readonly latestRecommended: Limit | null;
    readonly maximum: Limit | null;
  };
  /** The age from which none is due any more. */
  readonly end: Limit | null;
  /** How old it is when its repeats end, in words; null when they do not. */
  readonly until: Said | null;
  readonly intervals: readonly {
    readonly interval: Interval;
    readonly least: Limit | null;
    readonly earliestRecommended: Limit | null;
    readonly latestRecommended: Limit | null;
  }[];
}

/** The limits of a target; targets are data of a signed document and never change. */
export const limitsOf = derived((target: Target): TargetLimits => {
  const { age, repeats } = target;
  return {
    age: {
      least: ageLimit('minimum-age', age.minimum ?? age.absoluteMinimum),
      earliestRecommended: ageLimit('recommended-age', age.earliestRecommended),
      latestRecommended: ageLimit('late-age', age.latestRecommended),
      maximum: ageLimit('maximum-age', age.maximum),
    },
    end: repeats?.ends === 'before' ? ageLimit('end-age', repeats.until ?? undefined) : null,
    until: repeats?.until == null ? null : spanSaid(repeats.until.span),
    intervals: target.intervals.map((interval) => ({
      interval,
      least: spanLimit('minimum-interval', interval, interval.minimum ?? interval.absoluteMinimum),
      earliestRecommended: spanLimit('recommended-interval', interval, interval.earliestRecommended),
      latestRecommended: spanLimit('late-interval', interval, interval.latestRecommended),
    })),
  };
});

const ageLimit = (rule: SpanRule, age: SourcedAge | undefined): Limit | null =>
  age === undefined ? null : { span: age.span, of: age.of, kind: spanStep(rule, age.span, age.source) };

const spanLimit = (rule: IntervalRule, { from }: Interval, limit: SourcedSpan | undefined): Limit | null =>
  limit === undefined
    ? null
    : { span: limit.span, of: 'youngest', kind: intervalStep(rule, limit.span, limit.source, from.is) };
