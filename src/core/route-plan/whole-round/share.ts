import { type Instance, needsTwo } from '../model/instance.js';
import { problemOf } from '../model/problem.js';
import { boundsOf } from '../search/bound.js';
import { type Search, safeRho } from '../search/search.js';
import { peopleIn, type Round, type RoundPlan, type RoundSection, type Share } from './round-shape.js';
import { planInTurn, sectionFor } from './visits.js';

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
  const own = ownTeams(round);
  if (own === null) return null;
  const sectionOf = new Map([...own].map(([at, team]) => [team, at] as const));
  const suits = (share: number, team: number): boolean => {
    const at = shares[share]?.at ?? -1;
    // A section and the team that is its own belong to each other alone.
    const mayGo = own.has(at) || sectionOf.has(team) ? own.get(at) === team : true;
    return mayGo && (peopleIn(round, team) === 2 || !pairOnly(shares[share]));
  };
  const first = inTurn(round, shares, estimate.part, suits);
  if (first === null) return null;
  const deal = improved(round, shares, first, estimate.part, suits, search);
  const heaps = Array.from({ length: round.teams }, (_, team) => shares.filter((_, i) => deal[i] === team));
  const teams = planInTurn(round, heaps, search);
  if (teams === null) return null;
  return {
    teams,
    end: Math.max(...teams.map((team) => team.end)),
    bound: boundOf(round, shares, own, estimate),
  };
}

/**
 * The team of each section that has one of its own, by the place of the section: the last teams, of two where something
 * needs two. Null when there are not enough.
 */
export function ownTeams(round: Pick<Round, 'sections' | 'teams' | 'people'>): ReadonlyMap<number, number> | null {
  const teams = new Map<number, number>();
  for (const [at, { section, ownTeam = false }] of [...round.sections.entries()].reverse()) {
    if (!ownTeam) continue;
    const two = section.litters.some(({ animals }) => animals.some(({ ops }) => ops.some(needsTwo)));
    const taken = new Set(teams.values());
    const free = Array.from({ length: round.teams }, (_, i) => round.teams - 1 - i).filter((team) => !taken.has(team));
    const fits = free.filter((team) => !two || peopleIn(round, team) === 2);
    // Where one person is enough, a team of two is left for those who need it.
    const team = fits.find((one) => two || peopleIn(round, one) === 1) ?? fits[0];
    if (team === undefined) return null;
    teams.set(at, team);
  }
  return teams.size === round.teams && teams.size < round.sections.length ? null : teams;
}

/** The least number of teams with which every section that is to have a team of its own can have one. */
export function teamsForOwn(sections: readonly Pick<RoundSection, 'ownTeam'>[]): number {
  const own = sections.filter((one) => one.ownTeam === true).length;
  return own + (own < sections.length ? 1 : 0);
}

/** Whether a litter can go to a team: who is alone gets nothing that needs two. */
type Suits = (share: number, team: number) => boolean;

const pairOnly = (share: Share | undefined): boolean =>
  share?.litter.animals.some((animal) => animal.ops.some(needsTwo)) ?? false;

/** Estimated time of a team of so many people in section `at` with some of its litters, gowning included. */
type Estimate = (people: 1 | 2, at: number, own: readonly number[]) => number;

function estimator(
  round: Round,
  shares: readonly Share[],
  rho: number,
): { readonly part: Estimate; readonly work: (share: number) => number } {
  const warm = { kitWarmUp: null };
  const workOf = (people: 1 | 2): number[] =>
    shares.map((share) => {
      const section = round.sections[share.at]?.section;
      if (section === undefined) return 0;
      const own = sectionFor(warm, people, { ...section, kitReadyAt: null }, [share.litter], 0);
      return boundsOf(problemOf(own, rho)).work;
    });
  const works = { 1: workOf(1), 2: workOf(2) };
  const work = (share: number): number => works[2][share] ?? 0;
  const known = new Map<string, number>();
  const part: Estimate = (people, at, own) => {
    const stop = round.sections[at];
    if (stop === undefined) return 0;
    const around = stop.don + stop.doff + stop.cartDisinfection;
    if (own.length > countedExactly) return own.reduce((sum, share) => sum + (works[people][share] ?? 0), around);
    const name = `${people} ${own.join(',')}`;
    const bound = known.get(name) ?? exactly(people, stop.section, own);
    known.set(name, bound);
    return bound + around;
  };
  const exactly = (people: 1 | 2, section: Instance, own: readonly number[]): number => {
    const litters = own.flatMap((share) => shares[share]?.litter ?? []);
    return boundsOf(problemOf(sectionFor(round, people, section, litters, 0), rho)).best;
  };
  return { part, work };
}

/** Change the deal while the last team gets earlier (or, that being equal, the next to last). */
function improved(
  round: Round,
  shares: readonly Share[],
  first: Deal,
  estimate: Estimate,
  suits: Suits,
  search: Search,
): Deal {
  const keepGoing = search.keepGoing ?? (() => true);
  const teamEnd = (deal: Deal, team: number): number => {
    let end = 0;
    for (let at = 0; at < round.sections.length; at += 1) {
      const own = shares.flatMap((share, i) => (share.at === at && deal[i] === team ? [i] : []));
      if (own.length > 0) end += estimate(peopleIn(round, team), at, own);
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
      if (![...change].every(([share, team]) => suits(share, team))) continue;
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

/** No deal ends earlier: the longest litter or section of an own team, and the rest over the teams that are left for it. */
function boundOf(
  round: Round,
  shares: readonly Share[],
  own: ReadonlyMap<number, number>,
  estimate: ReturnType<typeof estimator>,
): number {
  const within = (at: number): number[] => shares.flatMap((share, i) => (share.at === at ? [i] : []));
  const ends = shares.map((share, i) => estimate.part(2, share.at, [i]));
  let rest = 0;
  for (const [at, stop] of round.sections.entries()) {
    if (own.has(at)) ends.push(estimate.part(2, at, within(at)));
    else rest += within(at).reduce((sum, i) => sum + estimate.work(i), stop.don + stop.doff + stop.cartDisinfection);
  }
  const teams = round.teams - own.size;
  return Math.max(0, ...ends, teams > 0 ? Math.ceil(rest / teams) : 0);
}

/** Later ends count first: shorten the longest team, then the next. */
function lessThan(a: readonly number[], b: readonly number[]): boolean {
  const [x, y] = [[...a].sort((p, q) => q - p), [...b].sort((p, q) => q - p)];
  for (const [i, value] of x.entries()) if (value !== y[i]) return value < (y[i] ?? 0);
  return false;
}

/**
 * Litters in the order of the round, each team as much of the whole as the next: few sections per team. What does not
 * suit a team goes to the next that it suits; null when there is none.
 */
function inTurn(round: Round, shares: readonly Share[], estimate: Estimate, suits: Suits): Deal | null {
  const sizes = shares.map((share, i) => estimate(2, share.at, [i]));
  const total = sizes.reduce((sum, size) => sum + size, 0);
  let sofar = 0;
  const deal: number[] = [];
  for (const [share, size] of sizes.entries()) {
    const own = Math.min(round.teams - 1, Math.floor(((sofar + size / 2) * round.teams) / total));
    const turn = Array.from({ length: round.teams }, (_, i) => (own + i) % round.teams);
    const team = turn.find((one) => suits(share, one));
    if (team === undefined) return null;
    deal.push(team);
    sofar += size;
  }
  return deal;
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
