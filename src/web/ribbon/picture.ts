import type { RoundPlan } from '../../core/route-plan/whole-round/round-shape.js';
import type { PlanAsk } from '../../log/plan/ask.js';
import type { Section } from '../../log/views/shelter.js';
import { say } from '../../words/say.js';
import { partsOfPlan, type RibbonLane, type RibbonPicture } from './drawing/ribbon-data.js';
import type { Names } from './named.js';

/** Team A, Team B ... */
export const teamName = (team: number): string => say('ribbon.team', { letter: String.fromCharCode(65 + team) });

/** A plan that nobody has begun, as a picture. */
export function pictureOf(ask: PlanAsk, plan: RoundPlan, zero_ms: number, names: Names): RibbonPicture {
  const sections = new Map<string, Section>(ask.stops.map((stop) => [stop.section.id, stop.section]));
  const lanes = plan.teams.map((team, number): RibbonLane => {
    return {
      name: teamName(number),
      sections: team.visits.map((visit) => {
        const section = sections.get(visit.section);
        const instance = ask.round.sections.find((one) => one.section.id === visit.section)?.section;
        const unitSeconds = instance?.unitSeconds ?? 30;
        const inside_s = visit.inside * unitSeconds;
        const parts = partsOfPlan({
          steps: visit.plan.steps,
          inside_s,
          unitSeconds,
          windowOf: (kit) => {
            const own = kit === undefined ? undefined : instance?.test.windows?.[kit];
            const { readLagMin = 0, readLagMax = 0 } = own ?? instance?.test ?? {};
            return {
              opens_s: readLagMin * unitSeconds,
              closes_s: (readLagMax + (instance?.test.read ?? 0)) * unitSeconds,
            };
          },
          nameOf: names,
        });
        return {
          id: visit.section,
          name: section?.name ?? visit.section,
          rank: section?.rank ?? 'clean-adults',
          start_s: visit.start * unitSeconds,
          inside_s,
          work_s: parts.end_s,
          end_s: visit.end * unitSeconds,
          gloves: parts.gloves,
          blocks: parts.blocks,
          ways: parts.ways,
          threads: parts.threads,
        };
      }),
    };
  });
  return { zero_ms, lanes };
}
