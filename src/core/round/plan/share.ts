import { boundsOf } from './bound.js';
import type { Instance } from './instance.js';
import { problemOf } from './problem.js';
import type { Round, RoundPlan, Share } from './round-shape.js';
import { type Search, safeRho } from './search.js';
import { planInTurn, withKits } from './visits.js';

/** Which team each share goes to. */
type Deal = readonly number[];

/** Changes looked at before the real plans are made, and those that are looked at however short the time is. */
const mostTries = 20_000;
const leastTries = 400;
/** Parts of more litters are taken to last as long as their work: with so much to do nothing has to wait. */
const countedExactly = 8;

/**
 * Divide the litters of all sections over the teams: start from whole sections one after another, then move single
 * litters, whole sections or exchange two litters while the last team's estimated end gets earlier. A team that comes into
 * a section pays for gowning there, so sections are shared only where it pays. Estimates are lower bounds; the plans are real.
 */
export function shareSections(round: Round, shares: readonly Share[], search: Search): RoundPlan | null {
  const estimate = estimator(round, shares, search.rho ?? safeRho);
  const deal = improved(round, shares, inTurn(round, shares, estimate.part), estimate.part, search);
  const heaps = Array.from({ length: round.teams }, (_, team) => shares.filter((_, i) => deal[i] === team));
  const teams = planInTurn(round, heaps, search);
  if (teams === null) return null;
  const work = shares.reduce((sum, _, i) => sum + estimate.work(i), 0);
  const single = shares.map((share, i) => estimate.part(share.at, [i]));
  return {
    teams,
    end: Math.max(...teams.map((team) => team.end)),
    bound: Math.max(Math.ceil((work + entering(round)) / round.teams), ...single),
  };
}

/** Estimated time of one team in section `at` with some of its litters, gowning included. */
type Estimate = (at: number, own: readonly number[]) => number;

function estimator(
  round: Round,
  shares: readonly Share[],
  rho: number,
): { readonly part: Estimate; readonly work: (share: number) => number } {
  const works = shares.map((share) => {
    const section = round.sections[share.at]?.section;
    if (section === undefined) return 0;
    return boundsOf(problemOf({ ...section, litters: [share.litter], kitReadyAt: null }, rho)).work;
  });
  const work = (share: number): number => works[share] ?? 0;
  const known = new Map<string, number>();
  const part: Estimate = (at, own) => {
    const stop = round.sections[at];
    if (stop === undefined) return 0;
    const around = stop.don + stop.doff + stop.cartDisinfection;
    if (own.length > countedExactly) return own.reduce((sum, share) => sum + work(share), around);
    const name = own.join(',');
    const bound = known.get(name) ?? exactly(stop.section, own);
    known.set(name, bound);
    return bound + around;
  };
  const exactly = (section: Instance, own: readonly number[]): number => {
    const litters = own.flatMap((share) => shares[share]?.litter ?? []);
    return boundsOf(problemOf(withKits(round, section, litters, 0), rho)).best;
  };
  return { part, work };
}

/** Change the deal while the last team gets earlier (or, that being equal, the next to last). */
function improved(round: Round, shares: readonly Share[], first: Deal, estimate: Estimate, search: Search): Deal {
  const keepGoing = search.keepGoing ?? (() => true);
  const teamEnd = (deal: Deal, team: number): number => {
    let end = 0;
    for (let at = 0; at < round.sections.length; at += 1) {
      const own = shares.flatMap((share, i) => (share.at === at && deal[i] === team ? [i] : []));
      if (own.length > 0) end += estimate(at, own);
    }
    return end;
  };
  let deal = first;
  let now = Array.from({ length: round.teams }, (_, team) => teamEnd(deal, team));
  let tries = 0;
  for (let better = true; better; ) {
    better = false;
    for (const change of changesTo(deal, shares, now)) {
      tries += 1;
      if (tries > mostTries || (tries > leastTries && tries % 50 === 0 && !keepGoing())) return deal;
      const next = deal.map((team, i) => change.get(i) ?? team);
      const teams = new Set([...change.values(), ...[...change.keys()].map((i) => deal[i] ?? 0)]);
      const then = now.map((end, team) => (teams.has(team) ? teamEnd(next, team) : end));
      if (lessThan(then, now)) {
        deal = next;
        now = then;
        better = true;
        break;
      }
    }
  }
  return deal;
}

const entering = (round: Round): number =>
  round.sections.reduce((sum, one) => sum + one.don + one.doff + one.cartDisinfection, 0);

/** Later ends count first: shorten the longest team, then the next. */
function lessThan(a: readonly number[], b: readonly number[]): boolean {
  const [x, y] = [[...a].sort((p, q) => q - p), [...b].sort((p, q) => q - p)];
  for (const [i, value] of x.entries()) if (value !== y[i]) return value < (y[i] ?? 0);
  return false;
}

/** Litters in the order of the round, each team as much of the whole as the next: few sections per team. */
function inTurn(round: Round, shares: readonly Share[], estimate: Estimate): Deal {
  const sizes = shares.map((share, i) => estimate(share.at, [i]));
  const total = sizes.reduce((sum, size) => sum + size, 0);
  let sofar = 0;
  return sizes.map((size) => {
    const team = Math.min(round.teams - 1, Math.floor(((sofar + size / 2) * round.teams) / total));
    sofar += size;
    return team;
  });
}

/** From the team that is last done: a litter to another team, all its litters of a section, or one against one. */
function* changesTo(deal: Deal, shares: readonly Share[], ends: readonly number[]): Generator<Map<number, number>> {
  const order = ends.map((_, team) => team).sort((a, b) => (ends[b] ?? 0) - (ends[a] ?? 0));
  for (const from of order.slice(0, Math.max(1, order.length - 1))) {
    const own = deal.flatMap((team, i) => (team === from ? [i] : []));
    for (const to of [...order].reverse()) {
      if (to === from) continue;
      for (const i of own) yield new Map([[i, to]]);
      for (const at of new Set(own.map((i) => shares[i]?.at)))
        yield new Map(own.filter((i) => shares[i]?.at === at).map((i) => [i, to]));
      for (const i of own) {
        for (const [j, team] of deal.entries())
          if (team === to)
            yield new Map([
              [i, to],
              [j, from],
            ]);
      }
    }
  }
}
