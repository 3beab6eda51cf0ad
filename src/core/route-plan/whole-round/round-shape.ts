import { z } from 'zod';
import { Instance, type PlanLitter } from '../model/instance.js';
import type { Plan } from '../search/search.js';

const units = z.number().int().min(0).max(20_000);

/** One stop of the round: a section with what it costs to get in and out of it. */
export const RoundSection = z.strictObject({
  section: Instance,
  /** Putting on and taking off what the section asks for, and wiping down the cart. */
  don: units,
  doff: units,
  cartDisinfection: units,
  /** Done by one team that goes nowhere else. */
  ownTeam: z.boolean().optional(),
});
export type RoundSection = z.infer<typeof RoundSection>;

/** A whole round: sections from clean to dirty, visited one way. Ids of animals and litters are unique over all. */
export const Round = z.strictObject({
  id: z.string().min(1).default('round'),
  sections: z.array(RoundSection).min(1).max(40),
  teams: z.number().int().min(1).max(12).default(1),
  /** People in each team, the first first; two where nothing is said. One alone gets nothing that needs two. */
  people: z
    .array(z.union([z.literal(1), z.literal(2)]))
    .max(12)
    .default([]),
  /** Length of the shift; null when it does not end the round. */
  shift: units.nullable().default(null),
  /** Time for a kit from the fridge to be warm, all of them taken out as the round starts; null: all are warm. */
  kitWarmUp: units.nullable().default(null),
  /** Longest time out of the fridge; null: no limit. */
  kitGoodFor: units.nullable().default(null),
});
export type Round = z.infer<typeof Round>;

/** One section as one team does it; `start` and `end` count from the start of the round, gowning included. */
export interface Visit {
  readonly section: string;
  readonly start: number;
  /** Start of the plan itself: after putting on. */
  readonly inside: number;
  readonly end: number;
  readonly litters: readonly string[];
  readonly plan: Plan;
}

export interface TeamRound {
  readonly visits: readonly Visit[];
  readonly end: number;
}

export interface RoundPlan {
  readonly teams: readonly TeamRound[];
  readonly end: number;
  /** Nobody can be done earlier than this: the work of all over the teams, or the longest single litter. */
  readonly bound: number;
}

/** How many people work in a team. */
export const peopleIn = ({ people }: Pick<Round, 'people'>, team: number): 1 | 2 => people[team] ?? 2;

/** A litter of a section, as it is given to a team. */
export interface Share {
  readonly at: number;
  readonly litter: PlanLitter;
}
