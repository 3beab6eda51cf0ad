import { atMost } from '../model/budget.js';
import { type Instance, type PlanLitter, testedCount } from '../model/instance.js';
import { planSection, type Search } from '../search/search.js';
import { peopleIn, type Round, type Share, type TeamRound, type Visit } from './round-shape.js';

/** Passes over the length of a plan that every section gets before any gets more. */
const quickPasses = 2;

/** Plan every team's sections quickly, then, the longest team first, as well as `keepGoing` lets. */
export function planInTurn(round: Round, heaps: readonly (readonly Share[])[], search: Search): TeamRound[] | null {
  const keepGoing = search.keepGoing ?? (() => true);
  const teams: TeamRound[] = [];
  for (const [number, heap] of heaps.entries()) {
    const team = planVisits(round, peopleIn(round, number), heap, search, quickPasses);
    if (team === null) return null;
    teams.push(team);
  }
  const order = teams.map((_, i) => i).sort((a, b) => (teams[b]?.end ?? 0) - (teams[a]?.end ?? 0));
  for (const i of order) {
    if (!keepGoing() || teams[i]?.visits.every((visit) => visit.plan.shortest && visit.plan.spread === 0)) continue;
    const again = planVisits(round, peopleIn(round, i), heaps[i] ?? [], search, Number.MAX_SAFE_INTEGER);
    if (again !== null && again.end <= (teams[i]?.end ?? 0)) teams[i] = again;
  }
  return teams;
}

/** The sections of one team one after another; a later section finds the kits warmer. */
function planVisits(
  round: Round,
  people: 1 | 2,
  shares: readonly Share[],
  search: Search,
  passes: number,
): TeamRound | null {
  const visits: Visit[] = [];
  let time = 0;
  for (const [at, stop] of round.sections.entries()) {
    const litters = shares.filter((share) => share.at === at).map((share) => share.litter);
    if (litters.length === 0) continue;
    const inside = time + stop.don;
    const section = sectionFor(round, people, stop.section, litters, inside);
    const asks = passes * stepCount(section);
    const keepGoing = atMost(asks, search.keepGoing ?? (() => true));
    const plan = planSection(section, { ...search, keepGoing, onBetter: () => undefined });
    if (plan === null) return null;
    const end = inside + plan.end + stop.doff + stop.cartDisinfection;
    visits.push({ section: stop.section.id, start: time, inside, end, litters: litters.map((one) => one.id), plan });
    time = end;
  }
  return { visits, end: time };
}

const stepCount = (section: Instance): number =>
  section.litters.reduce(
    (sum, one) => sum + 1 + one.animals.reduce((ops, animal) => ops + animal.ops.length + 2, 0),
    0,
  );

/** The section as a team of so many people does it: who is alone fetches, too. */
export function forPeople(section: Instance, people: 1 | 2): Instance {
  const { holders: _, ...bare } = section;
  return people === 1 ? bare : section;
}

/**
 * The part of a section for a team of so many people, with its kits as warm as they are when the team comes in.
 */
export function sectionFor(
  round: Pick<Round, 'kitWarmUp'>,
  people: 1 | 2,
  section: Instance,
  litters: readonly PlanLitter[],
  inside: number,
): Instance {
  const tests = testedCount(litters);
  const own = [...(section.kitReadyAt ?? [])].sort((a, b) => a - b).slice(0, tests);
  const warm = round.kitWarmUp === null ? null : Array<number>(tests).fill(Math.max(0, round.kitWarmUp - inside));
  const ready = section.kitReadyAt === null ? warm : own.map((one, k) => Math.max(one, warm?.[k] ?? 0));
  return { ...forPeople(section, people), litters: [...litters], kitReadyAt: ready };
}
