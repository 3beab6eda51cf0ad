import { z } from 'zod';

/** Whole numbers of one unit of time (`unitSeconds`): the planner knows no clock and no fractions. */
const units = z.number().int().min(0).max(20_000);
const atLeastOne = z.number().int().min(1).max(20_000);
const id = z.string().min(1).max(80);

/** One thing done to an animal, in the order in which it has to be done. */
export const Operation = z.strictObject({
  /** draw, chip, injection, oral, topical ...; a tested animal begins with its draw. */
  kind: id,
  dur: atLeastOne,
  /** Treater and holder both have to be there. By default draws and chips need two: common practice, no source. */
  needsTwo: z.boolean().optional(),
});
export type Operation = z.infer<typeof Operation>;

export const PlanAnimal = z.strictObject({
  id,
  tested: z.boolean(),
  /** Kinds of kit that are run, one after another, from its one draw; by default one kit. */
  kits: z.array(id).min(1).max(8).optional(),
  ops: z.array(Operation).min(1).max(30),
  /** Days past due of the most overdue thing; 0 is due today. Decides who is left when the shift ends first. */
  overdueDays: z.number().int().min(0).default(0),
});
export type PlanAnimal = z.infer<typeof PlanAnimal>;

export const PlanLitter = z.strictObject({ id, animals: z.array(PlanAnimal).min(1).max(60) });
export type PlanLitter = z.infer<typeof PlanLitter>;

export const TestTimes = z
  .strictObject({
    /** Length of starting one test. */
    start: atLeastOne,
    /** The reading starts at least and at most this long after the end of starting. */
    readLagMin: atLeastOne,
    readLagMax: atLeastOne,
    /** Length of one reading. */
    read: atLeastOne,
    /** How long the blood may wait, labelled, before its test is started. */
    sampleHoldMax: units,
    /** How many tests may run at once; null is no limit. */
    runningLimit: z.number().int().min(1).max(50).nullable(),
    /** Kinds of kit with a window of their own; the others have the one above. */
    windows: z.record(id, z.strictObject({ readLagMin: atLeastOne, readLagMax: atLeastOne })).optional(),
  })
  .refine(
    (test) => Object.values(test.windows ?? {}).every((own) => own.readLagMin <= own.readLagMax),
    'readLagMin must not be above readLagMax',
  )
  .refine((test) => test.readLagMin <= test.readLagMax, 'readLagMin must not be above readLagMax');
export type TestTimes = z.infer<typeof TestTimes>;

/** People who hold, beside the treater, when they are counted one by one. */
const holders = z.union([z.literal(1), z.literal(2)]);

/** One team (treater and holder) in one section. Times are whole numbers of `unitSeconds`. */
export const Instance = z
  .strictObject({
    id: id.default('section'),
    unitSeconds: z.number().int().min(1).max(3600),
    /** Fresh gloves before the first touch of every litter. */
    gloveChange: units,
    /** Taking an animal out, making sure of it and putting it back; added to its first operation. */
    fetch: units,
    /** Added when an animal is put back after the draw and fetched again. */
    refetch: units,
    /** The part of `fetch` and of `refetch` in which both make sure of the animal; by default none. */
    confirm: units.optional(),
    splitVisitAllowed: z.boolean(),
    /**
     * By default the team does one thing at a time. With a number the treater and so many holders are counted apart: a
     * holder puts one animal back and fetches the next while the treater starts or reads a test, or is with another holder.
     */
    holders: holders.optional(),
    test: TestTimes,
    /** When each kit has warmed to room temperature; null: all are ready at 0. */
    kitReadyAt: z.array(units).nullable(),
    litters: z.array(PlanLitter).min(1).max(200),
  })
  .refine(
    ({ confirm = 0, fetch, refetch }) => confirm <= fetch && confirm <= refetch,
    'confirm must not be above fetch or refetch',
  )
  .superRefine((instance, context) => {
    for (const path of wrongPaths(instance)) context.addIssue({ code: 'custom', ...path });
  });
export type Instance = z.infer<typeof Instance>;

interface WrongPath {
  readonly path: (string | number)[];
  readonly message: string;
}

function wrongPaths(instance: {
  readonly litters: readonly PlanLitter[];
  readonly kitReadyAt: readonly number[] | null;
}): WrongPath[] {
  const wrong: WrongPath[] = [];
  const seen = new Set<string>();
  const once = (name: string, path: (string | number)[]): void => {
    if (seen.has(name)) wrong.push({ path, message: `the id ${name} stands twice` });
    seen.add(name);
  };
  for (const [l, litter] of instance.litters.entries()) {
    once(`litter ${litter.id}`, ['litters', l, 'id']);
    for (const [a, animal] of litter.animals.entries()) {
      once(`animal ${animal.id}`, ['litters', l, 'animals', a, 'id']);
      const path = ['litters', l, 'animals', a, 'ops'];
      if (animal.tested && animal.ops[0]?.kind !== 'draw')
        wrong.push({ path, message: 'a tested animal begins with its draw' });
    }
  }
  const tested = testedCount(instance.litters);
  const kits = instance.kitReadyAt;
  if (kits !== null && kits.length < tested)
    wrong.push({ path: ['kitReadyAt'], message: `${tested} tests and only ${kits.length} kits` });
  return wrong;
}

/**
 * What bringing an animal costs: `together` of the treater's own time, `beside` of a holder's alone. Where the team is
 * one, all of it is together.
 */
export function bringing(
  { holders, fetch, refetch, confirm = 0 }: Pick<Instance, 'holders' | 'fetch' | 'refetch' | 'confirm'>,
  again = false,
): { readonly together: number; readonly beside: number } {
  const whole = again ? refetch : fetch;
  const together = holders === undefined ? whole : confirm;
  return { together, beside: whole - together };
}

type Tested = Pick<PlanAnimal, 'tested' | 'kits'>;

/** Kits that are run from the blood of one animal. */
export const kitCount = (animal: Tested): number => (animal.tested ? (animal.kits?.length ?? 1) : 0);

/** Kits that are run for all these litters. */
export const testedCount = (litters: readonly { readonly animals: readonly Tested[] }[]): number =>
  litters.reduce((sum, { animals }) => sum + animals.reduce((own, animal) => own + kitCount(animal), 0), 0);

/** Kinds of operation for which treater and holder both have to be there: common practice, no source. */
export const pairKinds: readonly string[] = ['draw', 'chip'];

export const needsTwo = (operation: Operation): boolean => operation.needsTwo ?? pairKinds.includes(operation.kind);

/** One line of a plan. Times count from the start of the section (or from the moment of planning again). */
export interface Step {
  readonly is: 'gloves' | 'handling' | 'start-test' | 'reading';
  readonly litter: string;
  /** Null for a change of gloves. */
  readonly animal: string | null;
  /** Kind of the operation; 'glove-change', 'start-test' and 'read' for those. */
  readonly kind: string;
  /** Which of the animal's operations, from 0; null when it is none of its handling. */
  readonly op: number | null;
  readonly start: number;
  readonly duration: number;
  /** Kind of kit that is started or read, where the animal names its kits. */
  readonly kit?: string | undefined;
  /** 2: treater and holder both; 1: the treater, or for a change of gloves each for himself. */
  readonly people?: 1 | 2 | undefined;
  /** When a holder sets out for the animal, where holders are counted apart from the treater. */
  readonly fetchFrom?: number | undefined;
}

/** The litter of each animal. */
export const littersOf = ({ litters }: Pick<Instance, 'litters'>): ReadonlyMap<string, string> =>
  new Map(litters.flatMap((litter) => litter.animals.map((one) => [one.id, litter.id] as const)));

/** Animals in the order in which they are first handled. */
export const animalsMet = (steps: readonly Step[]): string[] => [
  ...new Set(
    [...steps]
      .sort((a, b) => a.start - b.start)
      .flatMap((step) => (step.is === 'handling' && step.animal !== null ? [step.animal] : [])),
  ),
];

/** `A9:draw`, `L3:glove-change`: how a step is called in JSON. */
export const stepName = (step: Step): string =>
  `${step.animal ?? step.litter}:${step.kind}${step.kit === undefined ? '' : `:${step.kit}`}`;
export const endOf = (steps: readonly Step[]): number =>
  steps.reduce((end, step) => Math.max(end, step.start + step.duration), 0);
