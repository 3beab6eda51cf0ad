import { z } from 'zod';
import { Neutered, Sex } from '../../animal/animal.js';
import { SectionRank } from '../../biosecurity/section.js';
import { Span } from '../../calendar.js';
import { Source, Standing } from '../../dosing/formulary.js';
import { ScheduleId, SourceId } from '../../ids.js';
import { WallTime } from '../../wall-time.js';
import { documentProblems } from './document-problems.js';
import { WeightWatch } from './weight-watch.js';

/**
 * The protocol as signed data: which treatment is due when, for whom, and who said so. No age, interval or reason
 * lives in code. Its model is that of the public United States immunization logic (CDC, CDSi logic specification 4.5):
 * a schedule is met by a series of target doses, each with limits of age and interval.
 */

/** Names of schedules, doses and classes of product. */
export const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words joined by hyphens')
  .max(60);

/** Every value says where it is from and how far it may be trusted. */
const grounds = { source: SourceId, standing: Standing, note: z.string().max(1000).default('') };

/** A length of time in the unit its source uses. */
export const SourcedSpan = z.object({ span: Span, ...grounds });
export type SourcedSpan = z.infer<typeof SourcedSpan>;

/**
 * An age, counted from one end of the birth interval: `youngest` takes the latest day on which the animal may have
 * been born, `oldest` the earliest.
 */
export const SourcedAge = SourcedSpan.extend({ of: z.enum(['youngest', 'oldest']) });
export type SourcedAge = z.infer<typeof SourcedAge>;

/**
 * Limits of age of one target dose; the day an age is reached counts as reached. Between the absolute minimum and the
 * minimum a dose counts by grace. The recommended span runs from `earliestRecommended` to the day before
 * `latestRecommended`; on the day of `maximum` it is too late.
 */
export const AgeLimits = z.object({
  absoluteMinimum: SourcedAge.optional(),
  minimum: SourcedAge.optional(),
  earliestRecommended: SourcedAge.optional(),
  latestRecommended: SourcedAge.optional(),
  maximum: SourcedAge.optional(),
});
export type AgeLimits = z.infer<typeof AgeLimits>;

/** What an interval is counted from; it does not apply while that has not happened. */
export const IntervalStart = z.discriminatedUnion('is', [
  /** The dose before, whether it was valid or not; not one that was merely written down or not taken. */
  z.object({ is: z.literal('previous') }),
  /** The valid dose with this number, from 1. */
  z.object({ is: z.literal('dose'), number: z.number().int().min(1) }),
  /** The last dose of another schedule. */
  z.object({ is: z.literal('schedule'), schedule: ScheduleId }),
  z.object({ is: z.literal('arrival') }),
  /** The day on which something was seen. */
  z.object({ is: z.literal('observation'), code: slug }),
  /** The day on which a chip was put in here. */
  z.object({ is: z.literal('implant') }),
]);
export type IntervalStart = z.infer<typeof IntervalStart>;

/** Limits of time since something; all intervals of a target dose must hold. Same meanings as in AgeLimits. */
export const Interval = z.object({
  from: IntervalStart,
  absoluteMinimum: SourcedSpan.optional(),
  minimum: SourcedSpan.optional(),
  earliestRecommended: SourcedSpan.optional(),
  latestRecommended: SourcedSpan.optional(),
});
export type Interval = z.infer<typeof Interval>;

/** Something that is asked about an animal on a day. */
export const Condition = z.discriminatedUnion('is', [
  z.object({ is: z.literal('observed'), code: slug }),
  /** At least so many valid doses of this series, counted from an age on when one is given. */
  z.object({ is: z.literal('doses'), atLeast: z.number().int().min(1), from: SourcedAge.optional() }),
  z.object({ is: z.literal('age'), from: SourcedAge.optional(), under: SourcedAge.optional() }),
  z.object({ is: z.literal('complete'), schedule: ScheduleId }),
  /** The last test of a schedule that came to a result came to this one. */
  z.object({ is: z.literal('result'), schedule: ScheduleId, result: z.enum(['negative', 'reactive']) }),
  z.object({ is: z.literal('neutered'), state: Neutered }),
]);
export type Condition = z.infer<typeof Condition>;

/** A target dose is left out when all the conditions hold. */
export const Skip = z.object({ all: z.array(Condition).min(1), words: z.string().min(1).max(300), ...grounds });
export type Skip = z.infer<typeof Skip>;

/** What makes a target dose due, besides its ages and intervals. */
export const Trigger = z.discriminatedUnion('is', [
  z.object({ is: z.literal('age') }),
  /** Not before the animal is here. */
  z.object({ is: z.literal('arrival') }),
  /** Only when this, or one of the others, was seen or ordered since the last dose. */
  z.object({ is: z.literal('observation'), code: slug, or: z.array(slug).default([]) }),
  /** As long as this is seen; repeated at its interval until somebody says that it is over. */
  z.object({ is: z.literal('while'), code: slug }),
  /**
   * A clock that runs from the day this was seen: called for until one is valid on or after the end of the interval
   * from it, whatever was done before.
   */
  z.object({ is: z.literal('clock'), code: slug }),
  /** Only after a chip was put in here, since the last dose; not after one that was found in the animal. */
  z.object({ is: z.literal('implant') }),
]);
export type Trigger = z.infer<typeof Trigger>;

/** What has to be seen for it; nothing for a trigger that looks at nothing. */
export const codesOf = (on: Trigger): readonly string[] =>
  on.is === 'observation' ? [on.code, ...on.or] : 'code' in on ? [on.code] : [];

/** How a repeated target dose comes to an end. */
export const Repeats = z.object({
  until: SourcedAge.nullable(),
  /**
   * `with-a-dose-at-or-after`: goes on until a valid dose falls on or after that age.
   * `before`: no dose is due on or after that age.
   */
  ends: z.enum(['with-a-dose-at-or-after', 'before']),
});
export type Repeats = z.infer<typeof Repeats>;

export const Target = z.object({
  id: slug,
  on: Trigger,
  /** Null for a dose given once. */
  repeats: Repeats.nullable().default(null),
  /** Keeps up what the targets before have reached: while it is not due the schedule counts as complete. */
  upkeep: z.boolean().default(false),
  /** Wall-clock times of a day on which it is done more than once, in order; a day is done when all of them are. */
  times: z.array(WallTime).default([]),
  age: AgeLimits.prefault({}),
  intervals: z.array(Interval).default([]),
  skip: z.array(Skip).default([]),
  /** When the dose before is longer ago than this, the series begins again; null when it never does. */
  restartAfter: SourcedSpan.nullable().default(null),
});
export type Target = z.infer<typeof Target>;

/**
 * One way through a schedule: the first whose start fits, by the age at its first valid dose, or at the day it could be
 * started, and by what is so today.
 */
export const Series = z.object({
  id: slug,
  name: z.string().min(1).max(80),
  start: z
    .object({
      /** From this age on, inclusive. */
      from: SourcedAge.optional(),
      /** Under that age, exclusive. */
      under: SourcedAge.optional(),
      /** All of these are so today. */
      when: z.array(Condition).default([]),
    })
    .prefault({}),
  targets: z.array(Target).min(1),
  /** A complete series begins again when this is seen on a later day than its last dose. */
  again: slug.nullable().default(null),
});
export type Series = z.infer<typeof Series>;

export const HoldRule = z.object({
  id: slug,
  when: z.discriminatedUnion('is', [
    z.object({ is: z.literal('observation'), code: slug }),
    z.object({ is: z.literal('result'), of: ScheduleId, result: z.enum(['reactive', 'negative']) }),
  ]),
  /** Whom it can concern; an animal whose sex or neutering is unknown may be concerned. */
  concerns: z
    .object({ sex: Sex.optional(), unneutered: z.boolean().optional(), from: SourcedAge.optional() })
    .prefault({}),
  /** When it is so: hold the treatment, or go on and show the words. */
  present: z.enum(['hold', 'show']),
  /** When nobody has said: go on, go on but ask, or hold until it is known. */
  unknown: z.enum(['go-on', 'ask', 'hold']),
  /** How long what was seen counts when its own end was not noted; null for until somebody says otherwise. */
  lasts: SourcedSpan.nullable().default(null),
  /** What people read when it is so, in the language of the document. */
  words: z.string().min(1).max(300),
  /** What people are asked when it is not known. */
  question: z.string().max(300).default(''),
  ...grounds,
});
export type HoldRule = z.infer<typeof HoldRule>;

export const Schedule = z.object({
  id: ScheduleId,
  name: z.string().min(1).max(80),
  /** False for a schedule that this shelter does not use: nothing of it is ever due. */
  active: z.boolean().default(true),
  /** Only in sections of these infection ranks; everywhere when null. */
  where: z
    .object({ ranks: z.array(SectionRank).min(1), ...grounds })
    .nullable()
    .default(null),
  action: z.enum(['give', 'test', 'chip', 'weigh', 'look']),
  /** Order on one visit: blood first, then chip, injections, by mouth, on the skin last. */
  visitOrder: z.number().int(),
  /**
   * Classes of product (give) or of test (test) that satisfy it, or codes of observation (look), preferred first. The
   * code `chip-read` stands for the animal's chip read in the animal on a later day than it was put in.
   */
  satisfiedBy: z.array(slug).default([]),
  /**
   * Claims of a label by which a product of any other class is accepted too: it counts when it was given, and is not offered.
   * What is only recorded stays so, whatever its label claims.
   */
  claims: z.array(slug).default([]),
  /** Classes that are written down without satisfying; `spaces` when the next dose must still keep its interval. */
  recordedOnly: z.array(z.object({ class: slug, spaces: z.boolean(), ...grounds })).default([]),
  series: z.array(Series).min(1),
  holds: z.array(HoldRule).default([]),
  /** Schedules that must be complete before. `result` asks for a test to have come out so. */
  needsFirst: z
    .array(z.object({ schedule: ScheduleId, result: z.enum(['negative', 'any']).default('any'), ...grounds }))
    .default([]),
  /**
   * Products to keep apart from: not on a day from `begins` (inclusive) to `ends` (exclusive) after one of this class.
   */
  apart: z.array(z.object({ class: slug, begins: Span, ends: Span, ...grounds })).default([]),
  /** The same by active ingredient, whatever the class of the product. */
  apartIngredients: z
    .array(z.object({ ingredient: z.string().min(1).max(80), begins: Span, ends: Span, ...grounds }))
    .default([]),
  /** Below this weight it waits; with no weight known, people are asked. */
  minimumWeight: z
    .object({ grams: z.number().int().positive(), ...grounds })
    .nullable()
    .default(null),
  /**
   * `hold`: waits until the animal has the least age on the label of one of its products, or the age of a standing
   * order for it. `leave`: it is listed, and the dose is stopped when it is worked out.
   */
  labelAge: z.enum(['leave', 'hold']).default('leave'),
  /** Blood to be preferred for a test: kits that take it come first. */
  sample: z
    .object({ preferred: z.array(z.enum(['whole-blood', 'plasma', 'serum'])).min(1), ...grounds })
    .nullable()
    .default(null),
  /** How a reactive test is confirmed, and not before how long after it. */
  confirm: z
    .object({ words: z.string().min(1).max(300), after: Span.nullable(), ...grounds })
    .nullable()
    .default(null),
  /** How it is done, in short sentences for whoever does it; null where the product or the kit says so. */
  how: z
    .object({ steps: z.array(z.string().min(1).max(200)).min(1), ...grounds })
    .nullable()
    .default(null),
  /** When a first dose begins to count by law, as for rabies. */
  protectsAfter: SourcedSpan.nullable().default(null),
});
export type Schedule = z.infer<typeof Schedule>;

/**
 * A point on which published sources disagree. Every option names the values it stands for; those of the chosen one
 * are the values in the schedules. `at` leads to a value: field names, and ids inside lists.
 */
export const Choice = z.object({
  id: slug,
  question: z.string().min(1).max(300),
  options: z
    .array(
      z.object({
        id: slug,
        words: z.string().min(1).max(300),
        values: z.array(z.object({ at: z.array(z.string()).min(1), value: z.json() })).default([]),
        ...grounds,
      }),
    )
    .min(2),
  /** What the starter document suggests. */
  default: slug,
  chosen: slug,
});
export type Choice = z.infer<typeof Choice>;

/**
 * Other values for a time of higher risk, signed with the rest. The veterinarian switches a variant on for a section or
 * the whole shelter; without that nothing of it is in force.
 */
export const Variant = z.object({
  id: slug,
  name: z.string().min(1).max(80),
  words: z.string().min(1).max(500),
  values: z.array(z.object({ at: z.array(z.string()).min(1), value: z.json() })).min(1),
  ...grounds,
});
export type Variant = z.infer<typeof Variant>;

/** What keeps an animal out of the cleaner sections while it is so, by a code of observation. */
export const KeepApart = z.object({
  id: slug,
  code: slug,
  /** The cleanest section, by infection rank, that it may be in. */
  rank: SectionRank,
  /** What people read, in the language of the document. */
  words: z.string().min(1).max(200),
  ...grounds,
});
export type KeepApart = z.infer<typeof KeepApart>;

export const ProtocolDocument = z
  .object({
    id: z.string().min(1).max(60),
    version: z.string().min(1).max(30),
    title: z.string().min(1).max(200),
    /** Shown wherever the document is used. */
    caution: z.string().min(1).max(1000),
    sources: z.array(Source).min(1),
    /** When nobody knows the age and something depends on it: hold it until the age is estimated, or go on and ask. */
    ageUnknown: z.enum(['hold', 'ask']).default('hold'),
    keepApart: z.array(KeepApart).default([]),
    /** What of an animal's weights is told to people, by its age. Without it no weight is watched. */
    weightWatch: WeightWatch.default([]),
    /** How long after its due day a treatment may be on hold before people are asked about it; null: nobody is asked. */
    heldLong: SourcedSpan.nullable().default(null),
    /** How many hours an order told by telephone may wait for its veterinarian's countersignature; null: no limit. */
    countersign: z
      .object({ hours: z.number().int().min(1).max(720), ...grounds })
      .nullable()
      .default(null),
    schedules: z.array(Schedule).min(1),
    choices: z.array(Choice).default([]),
    variants: z.array(Variant).default([]),
  })
  .superRefine((document, context) => {
    for (const { path, message } of documentProblems(document)) context.addIssue({ code: 'custom', path, message });
  });
export type ProtocolDocument = z.infer<typeof ProtocolDocument>;
