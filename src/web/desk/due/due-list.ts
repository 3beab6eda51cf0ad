import type { DueLine } from '../../../api/wire.js';
import type { Animal } from '../../../core/animal/animal.js';
import { addDays, type CalendarDate } from '../../../core/calendar.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { isHeldLong } from '../../../core/protocol/held-long.js';
import { dueLine } from '../../../exports/due-line.js';
import { dueRow } from '../../../log/rows/rows.js';
import { type Section, type Shelter, sectionOf } from '../../../log/views/shelter.js';
import { dueIn, inCare, type World } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';

export const shows = ['overdue', 'today', 'week', 'waiting', 'held-long', 'when-needed', 'later', 'all'] as const;
export const orders = ['section', 'litter', 'treatment', 'day'] as const;

export interface DueFilter {
  readonly section: string;
  readonly litter: string;
  readonly schedule: string;
  readonly show: (typeof shows)[number];
  /** What the list is ordered by; each group has its own heading. */
  readonly by: (typeof orders)[number];
}

export interface DueOfAnimal {
  readonly animal: Animal;
  readonly item: DueItem;
}

/** Rows under one heading: a section, the name of a litter or a treatment, or a day; null for what has none. */
export interface DueGroup {
  readonly key: string;
  readonly heading:
    | { readonly is: 'section'; readonly section: Section }
    | { readonly is: 'name'; readonly name: string }
    | { readonly is: 'day'; readonly day: CalendarDate }
    | { readonly is: 'none' };
  readonly rows: readonly DueOfAnimal[];
}

/** The rows as they go into a file, in the order of the page. */
export const linesOf = (shelter: Shelter, groups: readonly DueGroup[]): DueLine[] =>
  groups.flatMap(({ rows }) =>
    rows.map(({ animal, item }) => {
      const named = { section: sectionOf(shelter, animal.section)?.name ?? '', schedule: item.scheduleName };
      return dueLine(dueRow(animal, item), { ...animal, litter: animal.litter?.name ?? null }, named, say);
    }),
  );

/** A week is the day itself and the six after it. */
const lastOfWeek = (on: CalendarDate): CalendarDate => addDays(on, 6);

/** Whether a list that shows this has the item on a day; what counts it asks the same. */
export function isShown(
  item: DueItem,
  show: DueFilter['show'],
  on: CalendarDate,
  protocol: ProtocolDocument | null,
): boolean {
  // A reactive test is on the list every day until there is a result, whatever is planned.
  const now = ['overdue', 'due', 'to-confirm', 'ended-missed'].includes(item.status);
  switch (show) {
    case 'overdue':
      return item.status === 'overdue' || item.confirm?.state === 'passed';
    case 'today':
      return now;
    case 'week':
      return now || (item.status === 'not-yet' && item.due !== null && item.due <= lastOfWeek(on));
    case 'waiting':
      return item.status === 'on-hold' || item.status === 'to-confirm' || item.status === 'ended-missed';
    case 'held-long':
      return isHeldLong(item, protocol, on);
    case 'when-needed':
      return item.status === 'when-needed';
    case 'later':
      return item.status === 'not-yet';
    case 'all':
      return true;
  }
}

/** Due items of animals in care on a day, in groups; inside a group in the order of a round, sickest last. */
export function dueList(world: World, on: CalendarDate, filter: DueFilter): DueGroup[] {
  const groups = new Map<string, DueOfAnimal[]>();
  for (const animal of inCare(world)) {
    if (filter.section !== 'all' && animal.section !== filter.section) continue;
    if (filter.litter !== 'all' && animal.litter?.id !== filter.litter) continue;
    for (const item of dueIn(world, animal, on)) {
      if (filter.schedule !== 'all' && item.schedule !== filter.schedule) continue;
      if (!isShown(item, filter.show, on, world.shelter.protocol)) continue;
      const key = keyOf(filter.by, animal, item);
      const rows = groups.get(key);
      if (rows === undefined) groups.set(key, [{ animal, item }]);
      else rows.push({ animal, item });
    }
  }
  return keysInOrder(world, filter.by, groups).map((key) => {
    const rows = groups.get(key) ?? [];
    return { key, heading: headingOf(world, filter.by, key, rows), rows };
  });
}

const none = '';

function keyOf(by: DueFilter['by'], animal: Animal, item: DueItem): string {
  switch (by) {
    case 'section':
      return animal.section ?? none;
    case 'litter':
      return animal.litter?.id ?? none;
    case 'treatment':
      return item.schedule;
    case 'day':
      return item.due ?? none;
  }
}

/** Sections as a round meets them, treatments as the protocol has them, days as they come, litters by name. */
function keysInOrder(world: World, by: DueFilter['by'], groups: ReadonlyMap<string, DueOfAnimal[]>): string[] {
  const { sections, protocol } = world.shelter;
  const known: readonly string[] =
    by === 'section'
      ? sections.map((one) => one.id)
      : by === 'treatment'
        ? (protocol?.schedules ?? []).map((one) => one.id)
        : [];
  const place = (key: string): number => {
    if (key === none) return known.length + 1;
    const at = known.indexOf(key);
    return at < 0 ? known.length : at;
  };
  const name = (key: string): string =>
    by === 'litter' ? (groups.get(key)?.[0]?.animal.litter?.name ?? '') : by === 'day' ? key : '';
  return [...groups.keys()].sort(
    (a, b) => place(a) - place(b) || name(a).localeCompare(name(b), 'en', { numeric: true }),
  );
}

function headingOf(world: World, by: DueFilter['by'], key: string, rows: readonly DueOfAnimal[]): DueGroup['heading'] {
  const first = rows[0];
  if (key === none || first === undefined) return { is: 'none' };
  switch (by) {
    case 'section': {
      const section = world.shelter.sections.find((one) => one.id === key);
      return section === undefined ? { is: 'none' } : { is: 'section', section };
    }
    case 'litter':
      return { is: 'name', name: first.animal.litter?.name ?? '' };
    case 'treatment':
      return { is: 'name', name: first.item.scheduleName };
    case 'day':
      return first.item.due === null ? { is: 'none' } : { is: 'day', day: first.item.due };
  }
}
