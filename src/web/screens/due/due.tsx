import { useState } from 'react';
import type { CalendarDate } from '../../../core/calendar.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/choices.js';
import { DayField } from '../../parts/day-field.js';
import { download } from '../../parts/download.js';
import { Page } from '../../parts/page.js';
import { Pick } from '../../parts/pick.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { dueCsv } from './due-csv.js';
import { type DueFilter, dueList } from './due-list.js';
import { DueTable } from './due-table.js';

const statuses = ['now', 'waiting', 'later', 'all'] as const;

/** What is due, for whom, by when and why; held treatments with what they wait for. */
export function Due() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const [on, setOn] = useState<CalendarDate | null>(null);
  const [filter, setFilter] = useState<DueFilter>({ section: 'all', schedule: 'all', status: 'now' });
  const day = on ?? today;
  const groups = dueList(world, day, filter);
  const count = groups.reduce((sum, group) => sum + group.rows.length, 0);
  const everything = { id: 'all', label: say('desk.due.everything') };
  return (
    <Page
      wide
      title={say('desk.due.title')}
      beside={say('desk.due.count', { count, day: { date: day } })}
      lead={
        shelter.protocol === null
          ? undefined
          : `${shelter.protocol.title} ${shelter.protocol.version}. ${shelter.protocol.caution}`
      }
      acts={
        <>
          <Act onAct={() => download(`due-${day}.csv`, 'text/csv;charset=utf-8', dueCsv(groups))}>
            {say('desk.due.csv')}
          </Act>
          <Act onAct={() => window.print()}>{say('parts.print')}</Act>
        </>
      }
    >
      {shelter.protocol === null ? <Notice tone="attention">{say('desk.due.no-protocol')}</Notice> : null}
      <div className="row end no-print filters">
        <Pick
          label={say('desk.section.name')}
          options={[everything, ...shelter.sections.map(({ id, name }) => ({ id: id as string, label: name }))]}
          value={filter.section}
          onChange={(section) => setFilter({ ...filter, section })}
        />
        <Pick
          label={say('desk.due.treatment')}
          options={[
            everything,
            ...(shelter.protocol?.schedules ?? []).map(({ id, name }) => ({ id: id as string, label: name })),
          ]}
          value={filter.schedule}
          onChange={(schedule) => setFilter({ ...filter, schedule })}
        />
        <DayField label={say('desk.due.on')} value={day} onChange={setOn} />
        <ChooseOne
          label={say('desk.due.show')}
          options={statuses.map((id) => ({ id, label: say(`desk.due.show.${id}`) }))}
          value={filter.status}
          onChange={(status) => setFilter({ ...filter, status })}
          flow
        />
      </div>
      {groups.length === 0 ? <p>{say('desk.due.nothing')}</p> : null}
      {groups.map(({ section, rows }) => (
        <section
          key={section?.id ?? 'none'}
          className="stack tight"
          aria-label={section?.name ?? say('desk.place.none')}
        >
          <SectionStrip
            rank={section?.rank ?? 'clean-kittens'}
            name={section?.name ?? say('desk.place.none')}
            level={2}
          >
            {say('desk.due.in-section', {
              count: rows.length,
              animals: new Set(rows.map((row) => row.animal.id)).size,
            })}
          </SectionStrip>
          <DueTable rows={rows} caption={say('desk.due.table', { section: section?.name ?? say('desk.place.none') })} />
        </section>
      ))}
    </Page>
  );
}
