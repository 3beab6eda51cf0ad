import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import type { AnimalId, SectionId } from '../../core/ids.js';
import { orderOf } from '../../log/plan/ask.js';
import { codeOfLine, numberedLines } from '../../log/plan/line-code.js';
import { drawUpsFor, wantedOfRound } from '../../log/prepare/draw-ups.js';
import { asNeededOf } from '../../log/views/round/as-needed.js';
import type { AnimalStop, RoundView, SectionStop } from '../../log/views/round/round.js';
import type { World } from '../../log/views/world.js';
import { itemText } from '../../told/item-text.js';
import { personName, say } from '../../words/say.js';
import { type AnimalBlock, animalBlock } from './animal-block.js';
import { keyOfLine, type SheetFrom, type SheetLine, sheetLine } from './sheet-line.js';

/** Columns of the treatment sheet, from left to right; from the time on they are written by hand. */
export const sheetColumns = [
  'animal',
  'what',
  'amount',
  'code',
  'time',
  'given',
  'lot',
  'not-given',
  'initials',
] as const;

/** The treatment sheet: a round on paper, for a day without devices. */
export interface TreatmentSheet {
  readonly on: CalendarDate;
  /** Those that it was planned for, whether they are on this device or not. */
  readonly planned: readonly AnimalId[];
  /** In the order of the round; a section without animals is not on it. */
  readonly sections: readonly SheetSection[];
}

export interface SheetSection {
  readonly id: SectionId;
  readonly name: string;
  /** Stands on every page: day, section, team, what to wear, when the sheet was made, and of invented data that it is. */
  readonly head: string;
  readonly animals: readonly SheetAnimal[];
}

export interface SheetAnimal {
  readonly id: AnimalId;
  readonly who: AnimalBlock;
  readonly lines: readonly SheetLine[];
  readonly notes: string;
}

/** The sheet of a round as of an instant: what is recorded afterwards does not stand on it. */
export function treatmentSheet(world: World, view: RoundView, at: string): TreatmentSheet {
  const { facts } = view;
  const today = dayOfInstant(at, world.shelter.zone);
  const needed = view.stops
    .flatMap((stop) => [...stop.animals, ...stop.asNeeded])
    .map(({ animal }) => ({
      animal: animal.id,
      schedules: asNeededOf(world, animal, today).map(({ line }) => line.schedule),
    }));
  const drawUps = [
    ...drawUpsFor(world, wantedOfRound(world, facts.id), at, facts.id),
    // Of no lot yet: nothing of it is made ready before somebody needs it.
    ...drawUpsFor(world, needed, at, facts.id),
  ];
  const from: SheetFrom = {
    world,
    view,
    at,
    today,
    drawUps: new Map(drawUps.map((one) => [one.key, one])),
    codes: new Map(numberedLines(facts).map((line) => [keyOfLine(line), codeOfLine(facts.id, line.number)])),
  };
  return {
    on: facts.plan.on,
    planned: facts.plan.lines.map(({ animal }) => animal),
    sections: view.stops
      .filter((stop) => stop.animals.length + stop.asNeeded.length > 0)
      .map((stop) => sheetSection(from, stop)),
  };
}

function sheetSection(from: SheetFrom, stop: SectionStop): SheetSection {
  const { world, view, at, today } = from;
  const { facts } = view;
  const { section } = stop;
  const head = [
    say('ribbon.sheet.head', {
      on: { date: facts.plan.on },
      section: section.name,
      treater: personName(facts.treater),
      holder: facts.holder === null ? say('desk.nobody') : personName(facts.holder),
    }),
    world.shelter.demo ? say('parts.demo') : '',
    section.wear.map(itemText).join(', '),
    say('ribbon.sheet.made', { at: { instant: at } }),
  ];
  return {
    id: section.id,
    name: section.name,
    head: head.filter((part) => part !== '').join(' · '),
    animals: [...inOrder(view, stop), ...stop.asNeeded].map((one) => ({
      id: one.animal.id,
      who: animalBlock(world, one.animal, today),
      lines: [...one.lines, ...asNeededOf(world, one.animal, today).map(({ line }) => line)].map((line) =>
        sheetLine(from, one, line),
      ),
      notes: one.animal.notes,
    })),
  };
}

/** In the order of the plan; without one, as the animals are met. */
function inOrder(view: RoundView, stop: SectionStop): readonly AnimalStop[] {
  const { ribbon } = view.facts.plan;
  if (ribbon === undefined) return stop.animals;
  const place = new Map(orderOf(ribbon).map((animal, i) => [animal, i]));
  const at = (one: AnimalStop): number => place.get(one.animal.id) ?? place.size;
  return [...stop.animals].sort((a, b) => at(a) - at(b));
}
