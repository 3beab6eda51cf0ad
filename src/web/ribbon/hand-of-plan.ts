import { animalsMet } from '../../core/route-plan/model/instance.js';
import type { RoundPlan, Visit } from '../../core/route-plan/whole-round/round-shape.js';
import { type Said, said } from '../../core/said.js';
import { say } from '../../words/say.js';
import type { Hand, Place, Spot } from './drawing/hand.js';
import { littersIn } from './in-order.js';
import { type Names, named } from './named.js';
import { nextGap, putAt } from './order-moves.js';
import { teamName } from './picture.js';
import type { RoundPlanning } from './use-round-plan.js';

/** What a hand on the drawing may do with a plan: the same rules as the list beside it. */
export function handOf(planning: RoundPlanning, names: Names): Hand | undefined {
  const { ask, plan } = planning;
  if (ask === null || plan === null) return undefined;
  const litterOf = littersIn(ask);
  const orderAt = (spot: Spot): string[] => {
    const visit = visitAt(plan, spot);
    return visit === undefined ? [] : animalsMet(visit.plan.steps);
  };
  const wish = (from: Spot, to: Place): readonly string[] => putAt(orderAt(from), litterOf, from.animal, to.gap);
  const unchanged = (from: Spot, to: Place): boolean =>
    staysThere(from, to) === null && wish(from, to).join(' ') === orderAt(from).join(' ');
  return {
    next: (from, gap, by) => nextGap(orderAt(from), litterOf, from.animal, gap, by),
    consider: (from, to) => {
      if (unchanged(from, to)) return { ok: true, words: say('ribbon.hand.stays', { animal: names(from.animal) }) };
      const why = ruleBroken(planning, from, to, wish(from, to));
      if (why !== null) return { ok: false, words: say(named(why, names)) };
      return { ok: true, words: whereInWords(orderAt(from), wish(from, to), from, to, names, litterOf) };
    },
    put: (from, to) => {
      if (unchanged(from, to)) return;
      const why = staysThere(from, to);
      if (why === null) planning.reorder(from.lane, from.section, wish(from, to));
      else planning.refuse(why);
    },
  };
}

const visitAt = (plan: RoundPlan, { lane, section }: Pick<Spot, 'lane' | 'section'>): Visit | undefined =>
  plan.teams[lane]?.visits.find((visit) => visit.section === section);

/** An animal stays with its team and in its section. */
function staysThere(from: Spot, to: Place): Said | null {
  const { animal, section } = from;
  if (to.lane !== from.lane) return said('ribbon.order.other-team', { animal, team: teamName(from.lane) });
  return to.section === section ? null : said('ribbon.order.other-section', { animal, section });
}

function ruleBroken(planning: RoundPlanning, from: Spot, to: Place, order: readonly string[]): Said | null {
  const stays = staysThere(from, to);
  if (stays !== null) return stays;
  const made = planning.consider(from.lane, from.section, order);
  return made.ok ? null : made.why;
}

function whereInWords(
  before: readonly string[],
  after: readonly string[],
  from: Spot,
  to: Place,
  names: Names,
  litterOf: (animal: string) => string,
): string {
  // A litter that comes along is named animal by animal.
  const own = litterOf(from.animal);
  const next = before[to.gap];
  const alone =
    after.filter((one) => one !== from.animal).join(' ') === before.filter((one) => one !== from.animal).join(' ');
  const moved = { list: alone ? [names(from.animal)] : after.filter((one) => litterOf(one) === own).map(names) };
  return next === undefined
    ? say('ribbon.hand.last', { moved, section: names(from.section) })
    : say('ribbon.hand.before', { moved, other: names(next) });
}
