import { type Said, said } from '../../said.js';
import { inMinutes } from './explain.js';
import type { Instance } from './instance.js';
import { planRound } from './round.js';
import type { Round, RoundPlan } from './round-shape.js';
import { type Plan, planSection, type Search, safeRho } from './search.js';
import { planTeams } from './teams.js';

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
  if (instance.holders !== 2) {
    const one = Math.min(plan.end, alone({ ...instance, holders: 1 }));
    const two = Math.min(one, alone({ ...instance, holders: 2 }));
    if (instance.holders === undefined) put('apart', one);
    // The first holder can fetch, too, while only the treater is needed: that is no merit of the second.
    put('holder', plan.end - (one - two));
  }
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

/** The round with so many holders counted apart from the treater. */
export const withHolders = (round: Round, holders: 1 | 2): Round => ({
  ...round,
  sections: round.sections.map((stop) => ({ ...stop, section: { ...stop.section, holders } })),
});

/** What another team would save on a whole round, in units. */
export function savedByTeam(round: Round, plan: RoundPlan, search: Search = {}): number {
  const more = planRound({ ...round, teams: round.teams + 1 }, search);
  return Math.max(0, plan.end - (more?.end ?? plan.end));
}
