import { type Said, said } from '../../said.js';
import type { Instance } from '../model/instance.js';
import { type Plan, planSection, type Search, safeRho } from '../search/search.js';
import type { Round } from '../whole-round/round-shape.js';
import { planTeams } from '../whole-round/teams.js';
import { inMinutes } from './explain.js';

export interface Saving {
  readonly what: 'team' | 'apart' | 'holder' | 'limit' | 'hold' | 'put-back' | 'kits' | 'safety';
  /** Units by which the end would come earlier; 0 when it would not. */
  readonly saves: number;
  readonly words: Said;
}

/**
 * What would shorten a section, each tried by planning it: another team, the holder fetching while the treater starts or
 * reads a test, a second holder beyond that, one more test at once, blood waiting ten minutes, putting back, warm kits,
 * and no safety.
 */
export function savings(instance: Instance, plan: Plan, search: Search = {}): readonly Saving[] {
  const { test } = instance;
  const rho = search.rho ?? safeRho;
  const alone = (changed: Instance, other: Search = search): number => planSection(changed, other)?.end ?? plan.end;
  const found: Saving[] = [];
  const put = (what: Saving['what'], end: number): void => {
    const saves = Math.max(0, plan.end - end);
    found.push({ what, saves, words: said(`plan.saves.${what}`, { minutes: inMinutes(saves, instance.unitSeconds) }) });
  };
  if (instance.litters.length > 1) put('team', planTeams(instance, 2, search)?.end ?? plan.end);
  const { apart, holder } = savedByHolders(plan.end, instance.holders, (holders) => alone({ ...instance, holders }));
  if (apart !== null) put('apart', plan.end - apart);
  if (holder !== null) put('holder', plan.end - holder);
  const tests = instance.litters.some((litter) => litter.animals.some((animal) => animal.tested));
  if (!tests) return found;
  if (test.runningLimit !== null)
    put('limit', alone({ ...instance, test: { ...test, runningLimit: test.runningLimit + 1 } }));
  const tenMinutes = Math.floor(600 / instance.unitSeconds);
  if (test.sampleHoldMax < tenMinutes)
    put('hold', alone({ ...instance, test: { ...test, sampleHoldMax: tenMinutes } }));
  if (!instance.splitVisitAllowed) put('put-back', alone({ ...instance, splitVisitAllowed: true }));
  if (instance.kitReadyAt?.some((ready) => ready > 0)) put('kits', alone({ ...instance, kitReadyAt: null }));
  if (rho > 1) put('safety', alone(instance, { ...search, rho: 1 }));
  return found;
}

/**
 * What holders counted apart save, in units: the first by fetching while only the treater is needed, a second beyond
 * that (what the first can do is no merit of the second). Null where the section has them already.
 */
export function savedByHolders(
  end: number,
  holders: 1 | 2 | undefined,
  endWith: (holders: 1 | 2) => number,
): { readonly apart: number | null; readonly holder: number | null } {
  if (holders === 2) return { apart: null, holder: null };
  const one = holders === 1 ? end : Math.min(end, endWith(1));
  return { apart: holders === 1 ? null : end - one, holder: one - Math.min(one, endWith(2)) };
}

/** The round with so many holders counted apart from the treater; null: every team does everything together. */
export const withHolders = (round: Round, holders: 1 | 2 | null): Round => ({
  ...round,
  sections: round.sections.map(({ section, ...stop }) => {
    const { holders: _, ...together } = section;
    return { ...stop, section: holders === null ? together : { ...section, holders } };
  }),
});
