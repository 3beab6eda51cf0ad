import { z } from 'zod';
import { Span } from '../calendar.js';
import { SourceId } from '../ids.js';
import { Exact, Route, Standing } from './exact-text.js';

/**
 * How far a compliant syringe may be off, by its capacity. Below half of the capacity the tolerance is a share of the
 * capacity plus a share of what is expelled, from half of it on a share of what is expelled.
 */
export const InstrumentRow = z.object({
  /** Row for capacities from here up to the next row, microlitres. */
  from_ul: z.number().int().min(0),
  ofCapacityPercent: Exact,
  ofVolumePercent: Exact,
  fromHalfPercent: Exact,
  /** Most that may stay in nozzle and needle, microlitres. */
  deadSpace_ul: z.number().int().min(0),
});
export const Instrument = z.object({
  rows: z.array(InstrumentRow).min(1),
  /** Microlitres left in a detachable needle, added to the syringe's own. */
  needle_ul: z.number().int().min(0),
  /** Below this share of its capacity a syringe is pointed out as a large one for the volume; null: never. */
  leastOfBarrelPercent: Exact.nullable().default(null),
  source: SourceId,
  standing: Standing,
});
export type Instrument = z.infer<typeof Instrument>;

/** How much blood a cat holds and how much of it may be drawn in so many days. */
export const BloodRules = z.object({
  ul_per_g: z.number().int().positive(),
  ul_per_g_from: z.number().int().positive(),
  ul_per_g_to: z.number().int().positive(),
  limits: z.array(z.object({ days: z.number().int().positive(), percent: Exact })).min(1),
  /** An ill animal may have so much less blood, percent. */
  lessWhenIllPercent: Exact,
  /** Below this packed cell volume draws are spaced further, percent. */
  slowBelowPcv: Exact,
  source: SourceId,
  standing: Standing,
});
export type BloodRules = z.infer<typeof BloodRules>;

/** What is usual and what is most at one place by a route, for products that name no limit of their own. */
export const RouteLimit = z.object({
  route: Route,
  good_ml_per_kg: Exact,
  most_ml_per_kg: Exact,
  sites: z.number().int().positive(),
  note: z.string().default(''),
  source: SourceId,
  standing: Standing,
});
export type RouteLimit = z.infer<typeof RouteLimit>;

/** Least days between two doses of one ingredient, whatever product carries it. */
export const Spacing = z.object({
  ingredients: z.array(z.string().min(1)).min(1),
  days: z.number().int().positive(),
  /** Only between doses by these routes; every route when empty. */
  routes: z.array(Route).default([]),
  why: z.string().default(''),
  source: SourceId,
  standing: Standing,
});
export type Spacing = z.infer<typeof Spacing>;

/** An ingredient that may not go in by a route, at an age, or stronger than so much. */
export const NotThisWay = z.object({
  ingredient: z.string().min(1),
  /** These routes; every route when empty. */
  routes: z.array(Route).default([]),
  underAge: Span.nullable().default(null),
  over_mg_per_ml: Exact.nullable().default(null),
  severity: z.enum(['stop', 'second-person', 'note']),
  why: z.string().min(1),
  source: SourceId,
  standing: Standing,
});
export type NotThisWay = z.infer<typeof NotThisWay>;

/** A mixture made up in a jug: so much concentrate in so much finished mixture. */
export const Mix = z.object({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  name: z.string().min(1).max(120),
  stock: z.string().min(1).max(120),
  stock_ml: Exact,
  finished_ml: Exact,
  diluent: z.string().min(1).max(80),
  cautions: z.array(z.string()).default([]),
  source: SourceId,
  standing: Standing,
});
export type Mix = z.infer<typeof Mix>;
