import type { CalendarDate } from '../../../core/calendar.js';
import type { DueItem } from '../../../core/protocol/due.js';
import { say } from '../../../words/say.js';
import { type Column, DataTable } from '../../parts/data-table.js';
import { AnimalLink } from '../../parts/links.js';
import { State } from '../../parts/state.js';
import { useShelter } from '../../store/here.js';
import { sourcesOf, toneOfDue, whyDue } from '../../told/due-words.js';
import type { DueOfAnimal } from './due-list.js';

interface DueTableProps {
  readonly rows: readonly DueOfAnimal[];
  readonly caption: string;
  /** Leave the animal out: on its own page. */
  readonly withoutAnimal?: boolean;
}

export function DueTable({ rows, caption, withoutAnimal = false }: DueTableProps) {
  const own: Column<DueOfAnimal>[] = [
    {
      id: 'treatment',
      label: say('desk.due.treatment'),
      names: withoutAnimal,
      cell: ({ item }) =>
        item.dose > 1 ? say('desk.due.dose', { name: item.scheduleName, dose: item.dose }) : item.scheduleName,
    },
    {
      id: 'state',
      label: say('desk.due.state'),
      cell: ({ item }) => <State tone={toneOfDue[item.status]}>{say(`desk.due.status.${item.status}`)}</State>,
    },
    {
      id: 'earliest',
      label: say('desk.due.earliest'),
      keepLine: true,
      cell: ({ item }) => <Day day={item.earliest} />,
    },
    { id: 'due', label: say('desk.due.due'), keepLine: true, cell: ({ item }) => <Day day={item.due} /> },
    {
      id: 'overdue',
      label: say('desk.due.overdue-after'),
      keepLine: true,
      cell: ({ item }) => <Day day={item.overdueAfter} />,
    },
    { id: 'why', label: say('desk.due.why'), cell: ({ item }) => <Why item={item} /> },
  ];
  const animal: Column<DueOfAnimal>[] = [
    {
      id: 'animal',
      label: say('desk.animal.animal'),
      names: true,
      cell: ({ animal: one }) => (
        <>
          <AnimalLink animal={one} />
          {one.kennel === '' ? null : (
            <div className="soft small">{say('desk.place.kennel-only', { kennel: one.kennel })}</div>
          )}
        </>
      ),
    },
  ];
  return (
    <DataTable
      caption={caption}
      columns={withoutAnimal ? own : [...animal, ...own]}
      rows={rows}
      keyOf={({ animal: one, item }) => `${one.id} ${item.schedule}`}
    />
  );
}

/** A calendar day as ISO text in the figure face: short, and read the same everywhere. */
export const Day = ({ day }: { day: CalendarDate | null }) =>
  day === null ? null : <span className="mono small">{day}</span>;

/** The sentence, the titles of its sources, and on request every step of the reckoning. */
export function Why({ item }: { item: DueItem }) {
  const shelter = useShelter();
  const sources = sourcesOf(shelter, item.sources);
  const title = (id: string | null): string => sourcesOf(shelter, id === null ? [] : [id])[0]?.title ?? '';
  return (
    <>
      {whyDue(item)}
      {sources.length === 0 ? null : (
        <div className="soft small">
          {say('desk.due.sources', { titles: sources.map((source) => source.title).join('; ') })}
        </div>
      )}
      {item.trace.length === 0 ? null : (
        <details className="small no-print">
          <summary>{say('desk.due.trace')}</summary>
          <ol className="plain">
            {item.trace.map((step) => (
              <li key={`${step.rule} ${step.date} ${step.value}`}>
                <span className="mono">{step.date ?? ''}</span>{' '}
                {step.words === undefined ? step.value : say(step.words)}
                {title(step.source) === '' ? '' : ` (${title(step.source)})`}
                {step.bound ? <b>{` ${say('desk.due.decides')}`}</b> : null}
              </li>
            ))}
          </ol>
        </details>
      )}
    </>
  );
}
