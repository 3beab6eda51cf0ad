import type { Animal } from '../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import type { DueItem } from '../../core/protocol/due.js';
import { flagsIn } from '../../log/flags/flags.js';
import { type DrawUp, drawUpsFor } from '../../log/prepare/draw-ups.js';
import { type RoundView, roundView } from '../../log/views/round/round.js';
import type { Shelter } from '../../log/views/shelter.js';
import { byPlace, dueIn, inCare, type World } from '../../log/views/world.js';
import { treatmentName } from '../../told/due-words.js';
import { nameOf, placeSaid } from '../../told/names.js';
import { say } from '../../words/say.js';
import { amountText, productText, whereText } from '../sheet/amount.js';
import { type TreatmentSheet, treatmentSheet } from '../sheet/treatment-sheet.js';

/**
 * What the shift is worked from when every device and the server are gone: the sheets of all rounds of the day, before
 * them what stops, and what is due in no round. It is as of the moment it was made, and says so.
 */
export interface DaySheet {
  readonly on: CalendarDate;
  /** The instant it was made, UTC text. */
  readonly made: string;
  readonly stops: readonly Stop[];
  /** Tests that run, and what is held or waits for the medical team, animal by animal. */
  readonly waits: readonly OfAnimal[];
  /** Due today and on no sheet: without a code, so that it is keyed in on the page of the animal. */
  readonly unplanned: readonly (Omit<OfAnimal, 'what'> & { readonly lines: readonly ToDo[] })[];
  /** Each line on them has a code: keyed in twice it is asked about, and what was recorded meanwhile is seen. */
  readonly sheets: readonly { readonly round: string; readonly sheet: TreatmentSheet }[];
}

export interface Stop {
  readonly key: string;
  readonly who: string;
  readonly why: string;
}

export interface OfAnimal {
  readonly id: AnimalId;
  readonly name: string;
  readonly place: string;
  readonly what: readonly string[];
}

/** Something to do, with how much of what and where, as far as it can be worked out. */
export interface ToDo {
  readonly what: string;
  readonly amount: string;
  readonly more: string;
}

/** The sheet of the shelter's day at an instant; of rounds that are handed back nothing is left to be done. */
export function daySheet(world: World, at: string): DaySheet {
  const { shelter } = world;
  const on = dayOfInstant(at, shelter.zone);
  const rounds = [...shelter.rounds.values()]
    .filter(({ plan, handedBack }) => plan.on === on && handedBack === null)
    .flatMap(({ id }): readonly RoundView[] => {
      const view = roundView(world, id);
      return view === null ? [] : [view];
    });
  const planned = new Set(
    rounds.flatMap(({ facts }) =>
      facts.plan.lines.flatMap(({ animal, schedules }) => schedules.map((schedule) => `${animal} ${schedule}`)),
    ),
  );
  const waits: OfAnimal[] = [];
  const open: { readonly animal: Animal; readonly items: readonly DueItem[] }[] = [];
  for (const animal of inCare(world).sort(byPlace(shelter))) {
    const items = dueIn(world, animal, on);
    const running = animal.runs.filter(
      ({ startedAt, readAt, result }) => startedAt !== null && readAt === null && result === 'running',
    );
    const waiting = [
      ...running.map(({ startedAt }) => say('day-sheet.running', { at: { instant: startedAt ?? '' } })),
      ...items.flatMap(({ status, hold, scheduleName }) =>
        status === 'on-hold' && hold !== null ? [say('day-sheet.held', { what: scheduleName, why: hold.why })] : [],
      ),
      ...items
        .filter(({ status }) => status === 'to-confirm' || status === 'ended-missed')
        .map(({ scheduleName, because }) => say('day-sheet.waits', { what: scheduleName, why: because })),
    ];
    if (waiting.length > 0) waits.push({ ...whoOf(shelter, animal), what: waiting });
    const due = items.filter(
      ({ status, schedule }) => (status === 'due' || status === 'overdue') && !planned.has(`${animal.id} ${schedule}`),
    );
    if (due.length > 0) open.push({ animal, items: due });
  }
  const wanted = open.map(({ animal, items }) => ({ animal: animal.id, schedules: items.map((one) => one.schedule) }));
  const drawUps = new Map(drawUpsFor(world, wanted, at).map((one) => [`${one.animal.id} ${one.schedule}`, one]));
  const unplanned = open.map(({ animal, items }) => ({
    ...whoOf(shelter, animal),
    lines: items.map((item) => toDo(item, drawUps.get(`${animal.id} ${item.schedule}`))),
  }));
  const stops = flagsIn(world, on)
    .filter(({ severity, state }) => severity === 'stop' && state !== 'answered')
    .map(({ key, animal, why }): Stop => {
      const of = animal === null ? undefined : world.animals.get(animal);
      return { key, who: of === undefined ? '' : nameOf(of), why: say(why) };
    });
  const sheets = rounds.map((view) => ({ round: view.facts.id as string, sheet: treatmentSheet(world, view, at) }));
  return { on, made: at, stops, waits, unplanned, sheets };
}

const whoOf = (shelter: Shelter, animal: Animal) => ({
  id: animal.id,
  name: nameOf(animal),
  place: say(placeSaid(shelter, animal.section, animal.kennel)),
});

function toDo(item: DueItem, drawUp: DrawUp | undefined): ToDo {
  if (drawUp === undefined) return { what: treatmentName(item), amount: '', more: '' };
  const more = [productText(drawUp), whereText(drawUp)].filter((part) => part !== '').join(', ');
  return { what: treatmentName(item), amount: amountText(drawUp), more };
}
