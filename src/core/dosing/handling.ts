import { z } from 'zod';
import { Span } from '../calendar.js';
import { SourceId } from '../ids.js';
import { Exact, Standing } from './exact-text.js';

/** What has to be done to a product before, at and after giving it; each has its sentence in the catalogue. */
export const Care = z.enum([
  'shake',
  'warm',
  'keep-cold',
  'keep-dark',
  'gloves',
  'with-food',
  'water-after',
  'needle-off',
  'not-licked',
]);
export type Care = z.infer<typeof Care>;

/** For which animals a caution is; a part that is left out says nothing. All figures are the caution's own. */
export const CautionFor = z.object({
  /** Animals that may be younger than this. */
  underAge: Span.optional(),
  /** Animals under this weight in grams. */
  under_g: z.number().int().positive().optional(),
  /** Animals for which this volume of the product would be above the highest dose of its band. */
  tooMuch_ul: z.number().int().positive().optional(),
});
export type CautionFor = z.infer<typeof CautionFor>;

/** A caution in the document's own words: plain text is for every animal, and is read with the others. */
export const Caution = z.union([
  z.string().min(1),
  z.object({
    text: z.string().min(1),
    /** It changes what the hand does: it is said before the others, where the hand is. */
    hand: z.boolean().default(false),
    only: CautionFor.optional(),
  }),
]);
export type Caution = z.infer<typeof Caution>;

/** Places on the animal that a treatment goes to; left and right are the animal's own. */
export const BodySite = z.enum([
  'mouth',
  'back-of-head',
  'neck-front-of-shoulders',
  'right-fore-low',
  'left-fore-low',
  'right-hind-low',
  'left-hind-low',
  'right-flank',
  'left-flank',
  'right-thigh',
  'left-thigh',
  'right-ear',
  'left-ear',
  'right-eye',
  'left-eye',
  'tail',
]);
export type BodySite = z.infer<typeof BodySite>;

/** How often and how long: `doses` in a row, `everyHours` apart, then perhaps a rest and the same again. */
export const Course = z.object({
  everyHours: z.number().int().positive(),
  /** Doses of one stretch; the least when `mostDoses` is given. */
  doses: z.number().int().positive(),
  mostDoses: z.number().int().positive().nullable().default(null),
  /** Whole days without a dose between two stretches. */
  restDays: z.number().int().min(0).default(0),
  stretches: z.number().int().positive().default(1),
  source: SourceId,
  standing: Standing,
});
export type Course = z.infer<typeof Course>;

/** Limits of one day; null where the source names none. */
export const PerDay = z.object({
  doses: z.number().int().positive().nullable().default(null),
  mg_per_kg: Exact.nullable().default(null),
  /** Days in a row on which it may be given. */
  daysInARow: z.number().int().positive().nullable().default(null),
  source: SourceId,
  standing: Standing,
});
export type PerDay = z.infer<typeof PerDay>;

/** Most that may go to one place, and how many places a day. Above it the dose is split. */
export const PerSite = z.object({
  most_ml_per_kg: Exact.nullable().default(null),
  most_ml: Exact.nullable().default(null),
  sites: z.number().int().positive(),
  source: SourceId,
  standing: Standing,
});
export type PerSite = z.infer<typeof PerSite>;

/** A vial that is made up on the day: its strength is what the diluent makes it. */
export const MakeUp = z.object({
  diluent: z.string().min(1).max(80),
  /** `diluent_ml` null: as the label of the vial says. */
  choices: z.array(z.object({ diluent_ml: Exact.nullable(), mg_per_ml: Exact })).min(1),
  goodForHours: z.number().int().positive(),
  keep: z.string().max(120).default(''),
  source: SourceId,
  standing: Standing,
});
export type MakeUp = z.infer<typeof MakeUp>;

/** A recipe for a weaker strength. It may be used because the document it stands in is signed, and only as it stands. */
export const Dilution = z.object({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  stock_ml: Exact,
  diluent: z.string().min(1).max(80),
  diluent_ml: Exact,
  gives_mg_per_ml: Exact,
  goodForHours: z.number().int().positive(),
  words: z.string().max(300).default(''),
  source: SourceId,
  standing: Standing,
});
export type Dilution = z.infer<typeof Dilution>;

/** Another strength of the same ingredient that could stand in its place on the shelf. */
export const Twin = z.object({ mg_per_ml: Exact, what: z.string().min(1).max(120), standing: Standing });
export type Twin = z.infer<typeof Twin>;
