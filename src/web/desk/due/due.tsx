import { useState } from 'react';
import { useSearch } from 'wouter';
import type { CalendarDate } from '../../../core/calendar.js';
import { csvFile } from '../../../exports/csv.js';
import { dueCsv, dueFileName } from '../../../exports/due-csv.js';
import { noneInForceFlags } from '../../../log/flags/in-force-flags.js';
import { lostInWords } from '../../../log/views/documents/lost-documents.js';
import { whyNoDocuments } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { download } from '../../parts/download.js';
import { Page } from '../../parts/page.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { DueFilters } from './due-filters.js';
import { type DueFilter, type DueGroup, dueList, linesOf, shows } from './due-list.js';
import { DueTable } from './due-table.js';

/** What is due, for whom, by when and why; held treatments with what they wait for. */
export function Due() {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const search = useSearch();
  const asked = shows.find((show) => show === new URLSearchParams(search).get('show'));
  const [on, setOn] = useState<CalendarDate | null>(null);
  const [filter, setFilter] = useState<DueFilter>({
    section: 'all',
    litter: 'all',
    schedule: 'all',
    show: asked ?? 'today',
    by: 'section',
  });
  const lost = lostInWords(shelter);
  const day = on ?? today;
  const groups = dueList(world, day, filter);
  const count = groups.reduce((sum, group) => sum + group.rows.length, 0);
  const keep = (on: CalendarDate, rows: readonly DueGroup[]): void => {
    const because = whyNoDocuments(shelter);
    const text = dueCsv(linesOf(shelter, rows), shelter.demo, because === null ? null : say(because));
    download(csvFile(dueFileName(on), text));
  };
  return (
    <Page
      wide
      title={say('desk.due.title')}
      beside={
        lost === null
          ? `${say('desk.due.count', { count, day: { date: day } })}, ${say(`desk.due.show.${filter.show}`)}`
          : undefined
      }
      lead={
        shelter.protocol === null
          ? undefined
          : `${shelter.protocol.title} ${shelter.protocol.version}. ${shelter.protocol.caution}`
      }
      acts={
        lost === null ? (
          <>
            <Act onAct={() => keep(day, groups)}>{say('desk.due.csv')}</Act>
            <Act onAct={() => window.print()}>{say('parts.print')}</Act>
          </>
        ) : undefined
      }
    >
      {lost !== null ? (
        <Notice tone="stop">{say(lost)}</Notice>
      ) : shelter.noneInForce.length > 0 ? (
        noneInForceFlags(shelter).map((flag) => (
          <Notice key={flag.key} tone="stop">
            {say(flag.why)}
          </Notice>
        ))
      ) : shelter.protocol === null ? (
        <Notice tone="attention">{say('desk.due.no-protocol')}</Notice>
      ) : null}
      <DueFilters filter={filter} onFilter={setFilter} day={day} onDay={setOn} />
      {groups.length === 0 && lost === null && shelter.protocol !== null ? <p>{say('desk.due.nothing')}</p> : null}
      {groups.map((group) => (
        <Group key={group.key} group={group} by={filter.by} />
      ))}
    </Page>
  );
}

function Group({ group, by }: { group: DueGroup; by: DueFilter['by'] }) {
  const { heading, rows } = group;
  const name = headingWords(group, by);
  const counts = say('desk.due.in-section', {
    count: rows.length,
    animals: new Set(rows.map((row) => row.animal.id)).size,
  });
  return (
    <section className="stack tight" aria-label={name}>
      {heading.is === 'section' ? (
        <SectionStrip rank={heading.section.rank} name={name} level={2}>
          {counts}
        </SectionStrip>
      ) : (
        <div className="row base">
          <h2>{name}</h2>
          <span className="soft small">{counts}</span>
        </div>
      )}
      <DueTable rows={rows} caption={say('desk.due.table', { section: name })} withSection={by !== 'section'} />
    </section>
  );
}

function headingWords({ heading }: DueGroup, by: DueFilter['by']): string {
  switch (heading.is) {
    case 'section':
      return heading.section.name;
    case 'name':
      return heading.name;
    case 'day':
      return say('desk.due.on-day', { day: { date: heading.day } });
    case 'none':
      return say(`desk.due.none.${by}`);
  }
}
