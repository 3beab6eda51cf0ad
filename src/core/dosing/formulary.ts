import { z } from 'zod';
import { CalendarDate, Span } from '../calendar.js';
import { KitTypeId, ProductId, SourceId, SyringeId } from '../ids.js';
import { Role } from '../people.js';
import { Exact, Route, Standing } from './exact-text.js';
import { BodySite, Care, Caution, Course, Dilution, MakeUp, PerDay, PerSite, Twin } from './handling.js';
import { LabelWeight, WeightRow } from './label-weight.js';
import { BloodRules, Instrument, Mix, NotThisWay, RouteLimit, Spacing } from './measuring.js';
import { ProductCondition } from './product-condition.js';

export { Exact, Route, Standing } from './exact-text.js';

/**
 * The formulary: products, kits and syringes as signed data. No dose, strength, age limit, read window or mark lives
 * in code.
 */
export const Source = z.object({
  id: SourceId,
  title: z.string(),
  where: z.string().default(''),
  url: z.string().default(''),
});
export type Source = z.infer<typeof Source>;

/** How the amount is found. */
export const DoseRule = z.discriminatedUnion('by', [
  /**
   * mg of the ingredient named first, per kg of body weight. `counted` says in what those mg are counted (base, a named
   * salt, the sum); it must be what the strength is counted in, else the dose stops: a salt is not its base.
   */
  z.object({ by: z.literal('mg-per-kg'), low: Exact, usual: Exact, high: Exact, counted: z.string().default('base') }),
  /** The same per lb, for a label that says its dose by the pound. */
  z.object({ by: z.literal('mg-per-lb'), low: Exact, usual: Exact, high: Exact, counted: z.string().default('base') }),
  /** Volume per unit of weight; bound to the strength named here and void on any other. */
  z.object({
    by: z.literal('ml-per-weight'),
    ml: Exact,
    per: z.enum(['lb', 'kg']),
    forStrength_mg_per_ml: Exact,
  }),
  /** Bands over weight; a weight in a hole is asked about. */
  z.object({ by: z.literal('bands'), bands: z.array(WeightRow).min(1) }),
  /** The same for every animal, whatever its weight. */
  z.object({
    by: z.literal('fixed'),
    ml: Exact.optional(),
    /** Of an ointment, whose label counts in grams. */
    g: Exact.optional(),
    pieces: z.string().optional(),
  }),
  /** No amount of its own: only a veterinarian's order says one. Limits for one place are limits, never a dose. */
  z.object({ by: z.literal('order') }),
]);
export type DoseRule = z.infer<typeof DoseRule>;

export const Product = z.object({
  id: ProductId,
  /** Active ingredient and form in plain words; never a brand. */
  name: z.string().min(1).max(120),
  ingredients: z
    .array(
      z.object({
        name: z.string(),
        /** What the strength is counted in: the base, a named salt, or the sum. */
        counted: z.string().default('base'),
        mg_per_ml: Exact.nullable(),
        /** In one tablet; null for what is no tablet, or where its label was not read. */
        mg_per_piece: Exact.nullable().default(null),
        /** Of what is weighed and not measured: an ointment or a paste; null for what has a volume. */
        mg_per_g: Exact.nullable().default(null),
      }),
    )
    .min(1),
  /** Class that schedules ask for, e.g. `core-vaccine-live`, `roundworm`, `topical-flea`. */
  classes: z.array(z.string()).min(1),
  /** What its label claims to treat or prevent in cats, e.g. `fleas`, `roundworm`; null where nothing is said of it. */
  claims: z
    .object({ of: z.array(z.string().min(1).max(60)).min(1), source: SourceId, standing: Standing })
    .nullable()
    .default(null),
  form: z.string(),
  route: Route,
  /** Where on the animal, with its own left and right. */
  site: z.string().default(''),
  /** The same place as a code, for the drawing of the animal. */
  siteCode: BodySite.nullable().default(null),
  /** Species it is made for. One for dogs only is listed so that the vial is recognised and stopped. */
  species: z.array(z.enum(['cat', 'dog'])).min(1),
  labelMinAge: Span.nullable(),
  labelMinWeight: LabelWeight.nullable(),
  dose: DoseRule,
  /** Limits that the given amount must stay inside, mg of the first ingredient per kg. */
  band: z.object({ low: Exact, high: Exact }).nullable(),
  /** Rounding to a mark may go up (never past the ceiling) or must go down. */
  rounding: z.enum(['nearest', 'down']),
  /** Furthest the drawn volume may be from the exact one, percent. */
  tolerancePercent: Exact,
  needsWeight: z.boolean(),
  prescription: z.boolean(),
  /** Kept under control by the law of most places: never ordered by telephone here. */
  controlled: z.boolean().default(false),
  /**
   * Above this many mg per kg even a printed or fixed amount stops. Null only where the amount is worked out per weight or
   * is counted in whole doses: a printed or fixed amount in mg has an end.
   */
  stopAbove_mg_per_kg: Exact.nullable().default(null),
  /** The least that the label asks for, in the unit of the label; what is drawn under it is pointed out. */
  least: z
    .object({ amount: Exact, unit: z.enum(['mg-per-kg', 'mg-per-lb', 'mL-per-kg', 'mL-per-lb']) })
    .nullable()
    .default(null),
  /** Roles that may give it. */
  mayGive: z
    .array(Role)
    .min(1)
    .default([...Role.options]),
  course: Course.nullable().default(null),
  perDay: PerDay.nullable().default(null),
  perSite: PerSite.nullable().default(null),
  makeUp: MakeUp.nullable().default(null),
  dilutions: z.array(Dilution).default([]),
  twins: z.array(Twin).default([]),
  /** Needle for it, such as `25 G`; empty where none is used. */
  needle: z.string().max(40).default(''),
  care: z.array(Care).default([]),
  handling: z.array(z.string()).default([]),
  cautions: z.array(Caution).default([]),
  /** When it is not given, or only on the veterinarian's word, beside the least age and weight of its label. */
  conditions: z.array(ProductCondition).default([]),
  source: SourceId,
  standing: Standing,
  /** Which figures of this entry come from memory, each in words; each is confirmed by name before signing. */
  fromMemory: z.array(z.string().min(1).max(160)).default([]),
  note: z.string().default(''),
});
export type Product = z.infer<typeof Product>;

export const Syringe = z.object({
  id: SyringeId,
  name: z.string(),
  capacity_ul: z.number().int().positive(),
  /** Distance between two marks. */
  mark_ul: z.number().int().positive(),
  /** What the barrel shows: millilitres, or units of U-100 or U-40 insulin. */
  scale: z.enum(['mL', 'U-100', 'U-40']),
  /** Routes it may be used for: an oral syringe takes no needle, one with a fixed needle does not go into a mouth. */
  routes: z.array(Route).default([...Route.options]),
  /** Microlitres left in it after a full push; null takes the table of the formulary and its needle. */
  deadSpace_ul: z.number().int().min(0).nullable().default(null),
  source: SourceId,
  standing: Standing,
});
export type Syringe = z.infer<typeof Syringe>;

/** What a set of zones means, tried in order; the first rule whose zones all match decides. */
export const KitReading = z.object({
  when: z.record(z.string(), z.enum(['mark', 'no-mark'])),
  means: z.enum(['negative', 'reactive', 'invalid']),
});

export const KitType = z.object({
  id: KitTypeId,
  name: z.string(),
  /** Class that test schedules ask for, e.g. `felv-antigen`. */
  tests: z.array(z.string()).min(1),
  /** Room-temperature minutes before use. */
  warmMinutes: z.number().int().min(0),
  /** After this many minutes out of the cold it is not used any more; null when not stated. */
  warmLimitMinutes: z.number().int().nullable(),
  /** The conjugate bottle must carry the lot of its own box. */
  conjugateLotMustMatch: z.boolean(),
  conjugateDrops: z.number().int(),
  sampleDrops: z.number().int(),
  /** Least blood to draw. */
  sample_ul: z.number().int(),
  samples: z.array(z.enum(['whole-blood', 'plasma', 'serum'])).min(1),
  /** What to do, step by step, each a short sentence in the document's own language. */
  steps: z.array(z.string()).min(1),
  /** Number, from 1, of the step at which the kit is activated and its clock starts; the last one when not given. */
  clockStep: z.number().int().positive().optional(),
  /** Seconds after activation: reading allowed from `opens`, not after `closes`, both inclusive. */
  readOpens_s: z.number().int().positive(),
  readCloses_s: z.number().int().positive(),
  zones: z.array(z.object({ id: z.string(), name: z.string(), printed: z.string() })).min(2),
  readings: z.array(KitReading).min(1),
  source: SourceId,
  standing: Standing,
  note: z.string().default(''),
});
export type KitType = z.infer<typeof KitType>;

/** A veterinarian's standing word that a product may be used outside its label, for whom and until when. */
export const StandingOrder = z.object({
  product: ProductId,
  allows: z.enum(['below-label-age', 'below-label-weight', 'other-dose-than-label']),
  minAge: Span.nullable(),
  min_g: z.number().int().nullable(),
  words: z.string(),
  by: z.string(),
  licence: z.string(),
  until: CalendarDate,
});
export type StandingOrder = z.infer<typeof StandingOrder>;

/**
 * What is asked for when the exact volume is below `below_ul`; of all floors that apply the lowest one decides.
 * `maxMark_ul`: the marks of the syringe must be this fine or finer.
 */
export const VolumeFloor = z.object({
  below_ul: z.number().int().positive(),
  severity: z.enum(['note', 'second-person', 'stop']),
  maxMark_ul: z.number().int().positive().nullable(),
});
export type VolumeFloor = z.infer<typeof VolumeFloor>;

/**
 * What no mark within the tolerance of its product measures is drawn to the nearest mark inside the limits of the product
 * instead, and said so. A mark of `over` times the exact volume or less, or of `under` times or more, is another dose.
 */
export const MarksInBand = z.object({
  over: Exact,
  under: Exact,
  severity: z.enum(['second-person', 'note']),
  source: SourceId,
  standing: Standing,
});

/** An ingredient that no cat may get, whatever the product says. */
export const NeverForCats = z.object({ ingredient: z.string().min(1), why: z.string().min(1), source: SourceId });
export type NeverForCats = z.infer<typeof NeverForCats>;

export const FormularyDocument = z.object({
  id: z.string().min(1).max(60),
  version: z.string().min(1).max(30),
  title: z.string(),
  caution: z.string(),
  sources: z.array(Source),
  products: z.array(Product),
  syringes: z.array(Syringe),
  kits: z.array(KitType),
  standingOrders: z.array(StandingOrder).default([]),
  /** How old a weight may be, by age of the animal, before a dose may be worked out from it. */
  weightFreshness: z.array(z.object({ underAgeDays: z.number().int(), hours: z.number().int() })).min(1),
  weightFreshnessSource: SourceId,
  /** Small volumes are hard to measure. Required, so that no formulary is without them. */
  volumeFloors: z.array(VolumeFloor).min(1),
  volumeFloorsSource: SourceId,
  /** Null: what no mark within the tolerance of its product measures is not drawn. */
  marksInBand: MarksInBand.nullable().default(null),
  neverForCats: z.array(NeverForCats).min(1),
  /** Null: nothing is said about how exact a syringe is. */
  instrument: Instrument.nullable().default(null),
  /** Null: no blood may be drawn by this formulary without asking. */
  blood: BloodRules.nullable().default(null),
  routeLimits: z.array(RouteLimit).default([]),
  spacings: z.array(Spacing).default([]),
  notThisWay: z.array(NotThisWay).default([]),
  mixes: z.array(Mix).default([]),
});
export type FormularyDocument = z.infer<typeof FormularyDocument>;
