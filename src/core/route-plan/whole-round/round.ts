import { needsTwo } from '../model/instance.js';
import type { Search } from '../search/search.js';
import { peopleIn, type Round, type RoundPlan, type Share } from './round-shape.js';
import { ownTeams, shareSections } from './share.js';
import { planInTurn } from './visits.js';

/**
 * Plan a whole round: the litters of all sections over the teams, each team's sections in the order given (clean to
 * dirty), every test read before its section is left. Null when blood would have to wait for a kit longer than it may, or
 * when something needs two people and everybody is alone (`needingTwo` names it), or a team of its own is lacking.
 */
export function planRound(round: Round, search: Search = {}): RoundPlan | null {
  if (needingTwo(round).length > 0) return null;
  const all = round.sections.flatMap((one, at) => one.section.litters.map((litter): Share => ({ at, litter })));
  if (round.teams === 1) {
    if (ownTeams(round) === null) return null;
    const teams = planInTurn(round, [all], search);
    const [team] = teams ?? [];
    if (teams === null || team === undefined) return null;
    const slack = team.visits.reduce((sum, { plan }) => sum + plan.end - plan.bounds.best, 0);
    return { teams, end: team.end, bound: team.end - slack };
  }
  return shareSections(round, all, search);
}

/** Animals for which something needs two people, when every team is one person; none otherwise. */
export function needingTwo(round: Round): string[] {
  const alone = Array.from({ length: round.teams }, (_, team) => peopleIn(round, team)).every((count) => count === 1);
  if (!alone) return [];
  return round.sections.flatMap(({ section }) =>
    section.litters.flatMap(({ animals }) => animals.flatMap(({ id, ops }) => (ops.some(needsTwo) ? [id] : []))),
  );
}
