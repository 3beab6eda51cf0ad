import { z } from 'zod';

const units = z.number().int().min(0).max(20_000);

/** What was set for a plan: the usual values are assumptions, each can be changed. */
export const RibbonSettings = z.object({
  /** Tests that may run at once; null is no limit. */
  runningLimit: z.number().int().min(1).max(50).nullable(),
  /** Minutes that labelled blood may wait for its test. */
  sampleHoldMinutes: z.number().int().min(0).max(60),
  /** Whether an animal may be put back after the draw and fetched again. */
  putBackAllowed: z.boolean(),
  /** Whether the holder fetches the next animal while the treater starts or reads a test. */
  holderFetches: z.boolean().default(false),
});
export type RibbonSettings = z.infer<typeof RibbonSettings>;

export const RibbonStep = z.object({
  is: z.enum(['gloves', 'handling', 'start-test', 'reading']),
  litter: z.string().max(200),
  animal: z.string().max(200).nullable(),
  kind: z.string().max(80),
  op: z.number().int().min(0).nullable(),
  start: units,
  duration: units,
  /** Which of several tests of one draw is started or read. */
  kit: z.string().max(80).optional(),
  /** 2: treater and holder both. */
  people: z.union([z.literal(1), z.literal(2)]).optional(),
  /** When a holder sets out for the animal, where holders are counted apart. */
  fetchFrom: z.number().int().optional(),
});

/** One section as one team plans it; times in units from the start of the round, steps from `inside`. */
export const RibbonVisit = z.object({
  section: z.string().min(1),
  start: units,
  inside: units,
  /** When what is worn comes off. */
  out: units,
  end: units,
  steps: z.array(RibbonStep).max(5000),
  /** Animals in the order that a person asked for; it is kept when the rest is planned again. */
  wished: z.array(z.string().max(200)).max(500).optional(),
});
export type RibbonVisit = z.infer<typeof RibbonVisit>;

/** The plan as it was when the round was laid down, so that it can be held beside what happened. */
export const PlannedRibbon = z.object({
  unitSeconds: z.number().int().min(1).max(3600),
  settings: RibbonSettings,
  /** Nobody could be done earlier than this, in units. */
  bound: units,
  visits: z.array(RibbonVisit).max(100),
});
export type PlannedRibbon = z.infer<typeof PlannedRibbon>;
