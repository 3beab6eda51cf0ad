import { z } from 'zod';
import { type Instance, kitCount } from './instance.js';

const units = z.number().int().min(0).max(20_000);

/** Blood for one kit: waiting since the draw ended, its test running since it was started (end of starting), or read. */
export const Sample = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('waiting'), since: z.number().int(), kit: z.string().min(1).optional() }),
  z.strictObject({ is: z.literal('running'), since: z.number().int(), kit: z.string().min(1).optional() }),
  z.strictObject({ is: z.literal('read'), kit: z.string().min(1).optional() }),
]);
export type Sample = z.infer<typeof Sample>;

/** What has really happened to one animal so far. */
export const AnimalState = z.strictObject({
  id: z.string().min(1),
  /** How many of its operations are finished. */
  done: z.number().int().min(0).default(0),
  /** Its blood, and that for the other kits that are run from the same draw. Null: not drawn, or nothing comes of it. */
  sample: Sample.nullable().default(null),
  more: z.array(Sample).max(7).optional(),
  /** Left out from here on: only its test (draw failed, no kit) or everything (not found, not today). */
  leave: z.enum(['nothing', 'test', 'everything']).default('nothing'),
});
export type AnimalState = z.infer<typeof AnimalState>;

/**
 * A section in the middle of its round, on the plan's own time (same zero as the plan that is running). `now` is the
 * end of whatever people are in the middle of, and its effect is counted as done: a plan never takes work out of hands.
 */
export const RunState = z.strictObject({
  now: units,
  animals: z.array(AnimalState).default([]),
  /** Litter for which gloves are on. */
  openLitter: z.string().nullable().default(null),
  /** Animal that is out of its cage. */
  openAnimal: z.string().nullable().default(null),
  /** Since when the holder has had his hands free, where he is counted apart: he may be on his way. Null: from `now`. */
  holderFrom: z.number().int().nullable().default(null),
  /** When two people are together again; what needs two cannot start before. */
  secondPersonFrom: units.default(0),
  /** Kits opened so far, if more than tests started (a test that had to be repeated). */
  kitsUsed: z.number().int().min(0).default(0),
});
export type RunState = z.infer<typeof RunState>;

export const atStart: RunState = {
  now: 0,
  animals: [],
  openLitter: null,
  openAnimal: null,
  holderFrom: null,
  secondPersonFrom: 0,
  kitsUsed: 0,
};

/** All the blood of an animal, one for each kit. */
export const samplesOf = (one: Pick<AnimalState, 'sample' | 'more'>): readonly Sample[] =>
  one.sample === null ? (one.more ?? []) : [one.sample, ...(one.more ?? [])];

/** The same animal with this blood. */
export function withSamples(one: AnimalState, [sample, ...more]: readonly Sample[]): AnimalState {
  const { more: _, ...rest } = one;
  return { ...rest, sample: sample ?? null, ...(more.length === 0 ? {} : { more }) };
}

/** The blood of one kind of state in all animals, longest under way first. */
export const underWay = (
  state: Pick<RunState, 'animals'>,
  is: 'waiting' | 'running',
): { readonly id: string; readonly since: number; readonly kit: string | undefined }[] =>
  state.animals
    .flatMap((one) =>
      samplesOf(one).flatMap((blood) => (blood.is === is ? [{ id: one.id, since: blood.since, kit: blood.kit }] : [])),
    )
    .sort((a, b) => a.since - b.since);

/** Kits that have been started. */
export const startedIn = (state: Pick<RunState, 'animals'>): number =>
  state.animals.reduce((sum, one) => sum + samplesOf(one).filter((blood) => blood.is !== 'waiting').length, 0);

/** Names in a state that are not in the instance, and counts that cannot be. Empty when all is well. */
export function stateFaults(instance: Instance, state: RunState): string[] {
  const animals = new Map(instance.litters.flatMap((litter) => litter.animals.map((one) => [one.id, one] as const)));
  const faults: string[] = [];
  for (const one of state.animals) {
    const animal = animals.get(one.id);
    if (animal === undefined) faults.push(one.id);
    else if (one.done > animal.ops.length || (samplesOf(one).length > 0 && (one.done === 0 || !animal.tested)))
      faults.push(one.id);
    else if (samplesOf(one).length > Math.max(1, kitCount(animal))) faults.push(one.id);
  }
  if (state.openAnimal !== null && !animals.has(state.openAnimal)) faults.push(state.openAnimal);
  if (state.openLitter !== null && !instance.litters.some((litter) => litter.id === state.openLitter))
    faults.push(state.openLitter);
  return faults;
}
