import { isToBeWeighedFirst } from '../../../log/prepare/prepare.js';
import type { Section } from '../../../log/views/shelter.js';
import { dueIn, inCare } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';
import { useNow, useToday } from '../../clock.js';
import { DataTable } from '../../parts/data-table.js';
import { SectionHatch } from '../../parts/section-hatch.js';
import { useWorld } from '../../store/here.js';

interface Row {
  readonly section: Section;
  readonly animals: number;
  readonly overdue: number;
  readonly due: number;
  readonly waiting: number;
  readonly weighFirst: number;
}

/** Section by section: how many are there, what is due, and how many are weighed before their dose. */
export function SectionsToday() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const at = new Date(useNow(60_000)).toISOString();
  const here = inCare(world);
  const rows = shelter.sections
    .filter((section) => !section.closed)
    .map((section): Row => {
      const own = here.filter((animal) => animal.section === section.id);
      const items = own.flatMap((animal) => dueIn(world, animal, today));
      const count = (status: string): number => items.filter((item) => item.status === status).length;
      return {
        section,
        animals: own.length,
        overdue: count('overdue'),
        due: count('due'),
        waiting: count('on-hold'),
        weighFirst: own.filter((animal) => isToBeWeighedFirst(world, animal, at, today)).length,
      };
    });
  return (
    <DataTable
      caption={say('desk.today.sections')}
      rows={rows}
      keyOf={(row) => row.section.id}
      fold={false}
      columns={[
        {
          id: 'section',
          label: say('desk.section.name'),
          names: true,
          cell: (row) => (
            <span className="row nowrap">
              <SectionHatch rank={row.section.rank} /> {row.section.name}
            </span>
          ),
        },
        { id: 'animals', label: say('desk.today.col.animals'), num: true, cell: (row) => row.animals },
        { id: 'overdue', label: say('desk.today.col.overdue'), num: true, cell: (row) => row.overdue },
        { id: 'due', label: say('desk.today.col.due'), num: true, cell: (row) => row.due },
        { id: 'waiting', label: say('desk.today.col.waiting'), num: true, cell: (row) => row.waiting },
        { id: 'weigh-first', label: say('desk.today.col.weigh-first'), num: true, cell: (row) => row.weighFirst },
      ]}
    />
  );
}
