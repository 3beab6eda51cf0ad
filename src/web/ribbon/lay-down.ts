import { addDays, type CalendarDate, instantAt } from '../../core/calendar.js';
import type { AnimalId, PersonId, RoundId, ScheduleId, SectionId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import { planRound } from '../../log/commands/round.js';
import type { PlannedRibbon } from '../../log/kinds/ribbon.js';
import { orderOf, ribbonOf } from '../../log/plan/ask.js';
import type { Draft } from '../../log/record.js';
import type { Shelter } from '../../log/views/shelter.js';
import { orderKey } from './in-order.js';
import type { Choices, RoundPlanning } from './use-round-plan.js';

export interface Team {
  readonly round: RoundId;
  readonly treater: PersonId;
  readonly holder: PersonId | null;
}

export interface WholeRound {
  readonly on: CalendarDate;
  readonly sections: readonly SectionId[];
  readonly startsAt: string;
  readonly endsAt: string | null;
  readonly lines: readonly { readonly animal: AnimalId; readonly schedules: ScheduleId[] }[];
}

/** The end of the shift as an instant; before its start it is the next day's. Null when none is set. */
export function endInstant(
  choices: Pick<Choices, 'endsAt'>,
  on: CalendarDate,
  startsAt: string,
  zone: string,
): string | null {
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(choices.endsAt)) return null;
  const same = instantAt(on, choices.endsAt, zone);
  return same > startsAt ? same : instantAt(addDays(on, 1), choices.endsAt, zone);
}

/**
 * The records that lay the round down: one round for each team, its animals in the order of the plan and the plan and
 * what people wished of it with them. Without a plan the whole is one round in the order of the sections.
 */
export function layDown(
  shelter: Shelter,
  whole: WholeRound,
  teams: readonly Team[],
  planning: RoundPlanning,
  choices: Choices,
  at: string,
): Outcome<Draft[]> {
  const { ask, plan } = planning;
  if (ask === null || plan === null) return one(shelter, whole, teams[0], whole.sections, whole.lines, undefined, at);
  const busy = plan.teams.flatMap((team, number) => (team.visits.length === 0 ? [] : [number]));
  const drafts: Draft[] = [];
  for (const number of busy) {
    const ribbon = ribbonOf(ask.round, plan, number, choices.settings, (section) =>
      planning.orders.get(orderKey(number, section)),
    );
    const order = orderOf(ribbon);
    const lines = order.flatMap((id) => whole.lines.find((line) => line.animal === id) ?? []);
    const sections = whole.sections.filter((id) => ribbon.visits.some((visit) => visit.section === id));
    const laid = one(shelter, whole, teams[number], sections, lines, ribbon, at);
    if (!laid.ok) return laid;
    drafts.push(...laid.value);
  }
  return ok(drafts);
}

function one(
  shelter: Shelter,
  whole: WholeRound,
  team: Team | undefined,
  sections: readonly SectionId[],
  lines: WholeRound['lines'],
  ribbon: PlannedRibbon | undefined,
  at: string,
): Outcome<Draft[]> {
  if (team === undefined) return no('ribbon.team-missing');
  return planRound(
    shelter,
    team.round,
    {
      on: whole.on,
      sections: [...sections],
      treater: team.treater,
      holder: team.holder,
      startsAt: whole.startsAt,
      endsAt: whole.endsAt,
      lines: lines.map(({ animal, schedules }) => ({ animal, schedules: [...schedules] })),
      ...(ribbon === undefined ? {} : { ribbon }),
    },
    at,
  );
}
