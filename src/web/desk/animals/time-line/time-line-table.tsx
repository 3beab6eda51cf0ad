import { dayFromNumber } from '../../../../core/calendar.js';
import { say } from '../../../../words/say.js';
import { DataTable } from '../../../parts/data-table.js';
import type { Lane } from './lanes.js';
import type { Stop } from './stops.js';

interface TableProps {
  readonly rows: readonly { readonly lane: Lane; readonly stops: readonly Stop[] }[];
  readonly label: string;
}

/** The time line in words, whole and in order, for those who do not see the picture or want the dates. */
export function TimeLineTable({ rows, label }: TableProps) {
  const all = rows.flatMap(({ lane, stops }) => stops.map((stop) => ({ lane, stop })));
  return (
    <details className="no-print">
      <summary>{say('timeline.as-table')}</summary>
      <DataTable
        caption={say('timeline.table', { label })}
        rows={all}
        keyOf={({ lane, stop }) => `${lane.id} ${stop.key}`}
        groupOf={({ lane }) => lane.id}
        columns={[
          {
            id: 'schedule',
            label: say('desk.due.treatment'),
            names: true,
            cell: ({ lane }) => lane.item.scheduleName,
          },
          {
            id: 'day',
            label: say('timeline.day'),
            keepLine: true,
            cell: ({ stop }) => <span className="mono small">{dayFromNumber(stop.day)}</span>,
          },
          { id: 'what', label: say('desk.due.state'), cell: ({ stop }) => stop.what },
          { id: 'words', label: say('desk.due.why'), cell: ({ stop }) => stop.words },
        ]}
      />
    </details>
  );
}
