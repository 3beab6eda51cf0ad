import { type Instance, type PlanLitter, testedCount } from '../model/instance.js';
import { problemOf } from '../model/problem.js';
import { boundsOf } from '../search/bound.js';
import { type Plan, planSection, type Search } from '../search/search.js';

/** One section divided over teams: whole litters each, so that gloves and animals never mix. */
export interface TeamsPlan {
  readonly teams: readonly { readonly litters: readonly string[]; readonly plan: Plan | null }[];
  /** When the last team is done. */
  readonly end: number;
  /** True when no way to divide the litters can end earlier. */
  readonly shortest: boolean;
}

/** Above so many ways to divide the litters only the promising ones are looked at. */
const mostDivisions = 5000;

/**
 * Divide the litters of one section over `teams` so that the last team is done soonest. Ways to divide are tried in
 * the order of their lower bound, until none of the rest can be better or `keepGoing` ends it. Null when a part has no plan.
 */
export function planTeams(instance: Instance, teams: number, search: Search = {}): TeamsPlan | null {
  const rho = search.rho ?? 2;
  const count = instance.litters.length;
  const keepGoing = search.keepGoing ?? (() => true);
  const parts = new Map<string, { readonly bound: number; plan?: Plan | null }>();
  const part = (litters: readonly number[]): { readonly bound: number; plan?: Plan | null } => {
    const name = litters.join(',');
    const known = parts.get(name);
    if (known !== undefined) return known;
    const made =
      litters.length === 0 ? { bound: 0 } : { bound: boundsOf(problemOf(partOf(instance, litters), rho)).best };
    parts.set(name, made);
    return made;
  };
  const planned = (litters: readonly number[]): Plan | null => {
    const one = part(litters);
    if (one.plan === undefined)
      one.plan = planSection(partOf(instance, litters), { ...search, onBetter: () => undefined });
    return one.plan;
  };
  const boundOf = (division: Division): number => Math.max(...division.map((litters) => part(litters).bound));

  const complete = teams ** (count - 1) <= mostDivisions;
  const divisions = complete ? allDivisions(count, teams) : balancedDivisions(count, teams, boundOf);
  const sorted = divisions
    .map((division) => ({ division, bound: boundOf(division) }))
    .sort((a, b) => a.bound - b.bound);
  let best: { readonly division: Division; readonly end: number } | null = null;
  let cut = false;
  for (const { division, bound } of sorted) {
    if (best !== null && bound >= best.end) break;
    if (best !== null && !keepGoing()) {
      cut = true;
      break;
    }
    const ends = division.map((litters) => (litters.length === 0 ? 0 : (planned(litters)?.end ?? Number.NaN)));
    const end = Math.max(...ends);
    if (Number.isNaN(end)) continue;
    if (best === null || end < best.end) best = { division, end };
  }
  if (best === null) return null;
  const chosen = best.division;
  const proven = chosen.every((litters) => litters.length === 0 || planned(litters)?.shortest === true);
  return {
    teams: chosen.map((litters) => ({
      litters: litters.map((l) => instance.litters[l]?.id ?? ''),
      plan: litters.length === 0 ? null : planned(litters),
    })),
    end: best.end,
    shortest: complete && !cut && (proven || best.end === sorted[0]?.bound),
  };
}

type Division = readonly (readonly number[])[];

/** The section with only some of its litters; the kits that are ready first go round the parts in turn. */
export function partOf(instance: Instance, litters: readonly number[]): Instance {
  const own = litters.map((l) => instance.litters[l]).filter((litter): litter is PlanLitter => litter !== undefined);
  const kits = instance.kitReadyAt === null ? null : [...instance.kitReadyAt].sort((a, b) => a - b);
  const [tests, all] = [testedCount(own), testedCount(instance.litters)];
  const share = kits?.filter((_, k) => Math.floor(((k + 1) * tests) / all) > Math.floor((k * tests) / all)) ?? null;
  return { ...instance, litters: own, kitReadyAt: share };
}

/** Every way to put `count` litters into at most `teams` heaps, heaps without names. */
function allDivisions(count: number, teams: number): Division[] {
  let ways: number[][][] = [[]];
  for (let litter = 0; litter < count; litter += 1) {
    ways = ways.flatMap((heaps) => {
      const joined = heaps.map((_, at) => heaps.map((heap, i) => (i === at ? [...heap, litter] : heap)));
      return heaps.length < teams ? [...joined, [...heaps, [litter]]] : joined;
    });
  }
  return ways.map((heaps) => [...heaps, ...Array<number[]>(teams - heaps.length).fill([])]);
}

/** Longest litter to the emptiest team, then one litter moved or two exchanged for as long as that helps. */
function balancedDivisions(count: number, teams: number, boundOf: (division: Division) => number): Division[] {
  const single = Array.from({ length: count }, (_, l) => ({ l, bound: boundOf([[l]]) })).sort(
    (a, b) => b.bound - a.bound,
  );
  const heaps: number[][] = Array.from({ length: teams }, () => []);
  const fill = Array<number>(teams).fill(0);
  for (const { l, bound } of single) {
    const emptiest = fill.indexOf(Math.min(...fill));
    heaps[emptiest]?.push(l);
    fill[emptiest] = (fill[emptiest] ?? 0) + bound;
  }
  let best: Division = sortedHeaps(heaps);
  const found: Division[] = [best];
  for (let better = true; better; ) {
    better = false;
    for (const next of neighbours(best)) {
      if (boundOf(next) < boundOf(best)) {
        best = next;
        found.push(next);
        better = true;
        break;
      }
    }
  }
  return found;
}

function* neighbours(division: Division): Generator<Division> {
  for (const [from, heap] of division.entries()) {
    for (const litter of heap) {
      for (const [to, other] of division.entries()) {
        if (to === from) continue;
        const without = heap.filter((one) => one !== litter);
        yield sortedHeaps(division.map((one, i) => (i === from ? without : i === to ? [...one, litter] : one)));
        for (const back of other) {
          const exchanged = [...other.filter((one) => one !== back), litter];
          yield sortedHeaps(division.map((one, i) => (i === from ? [...without, back] : i === to ? exchanged : one)));
        }
      }
    }
  }
}

const sortedHeaps = (heaps: Division): number[][] => heaps.map((heap) => [...heap].sort((a, b) => a - b));
