import type { Animal } from '../../../core/animal/animal.js';
import type { CalendarDate } from '../../../core/calendar.js';
import type { DueItem, DueStatus } from '../../../core/protocol/due.js';
import type { Section } from '../../../log/views/shelter.js';
import { dueIn, inCare, type World } from '../../../log/views/world.js';

export interface DueFilter {
  readonly section: string;
  readonly schedule: string;
  readonly status: 'now' | 'waiting' | 'later' | 'all';
}

export interface DueGroup {
  readonly section: Section | null;
  readonly rows: readonly DueOfAnimal[];
}

export interface DueOfAnimal {
  readonly animal: Animal;
  readonly item: DueItem;
}

const shown: Readonly<Record<DueFilter['status'], readonly DueStatus[]>> = {
  now: ['overdue', 'due'],
  waiting: ['on-hold'],
  later: ['not-yet'],
  all: ['overdue', 'due', 'on-hold', 'not-yet', 'complete', 'aged-out', 'not-recommended'],
};

/** Due items of animals in care on a day, by section in the order of a round, sickest last. */
export function dueList(world: World, on: CalendarDate, filter: DueFilter): DueGroup[] {
  const groups = new Map<string, DueOfAnimal[]>();
  for (const animal of inCare(world)) {
    if (filter.section !== 'all' && animal.section !== filter.section) continue;
    for (const item of dueIn(world, animal, on)) {
      if (filter.schedule !== 'all' && item.schedule !== filter.schedule) continue;
      if (!shown[filter.status].includes(item.status)) continue;
      const key = animal.section ?? '';
      groups.set(key, [...(groups.get(key) ?? []), { animal, item }]);
    }
  }
  const sections = world.shelter.sections.map((section): DueGroup => ({ section, rows: groups.get(section.id) ?? [] }));
  return [...sections, { section: null, rows: groups.get('') ?? [] }].filter((group) => group.rows.length > 0);
}
