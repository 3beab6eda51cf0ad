import type { CalendarDate } from '../../../../core/calendar.js';
import type { DueItem } from '../../../../core/protocol/due.js';
import { stateOfDue, treatmentName } from '../../../../told/due-words.js';
import type { Tone } from '../../../../told/tone.js';
import { say } from '../../../../words/say.js';
import { DataTable } from '../../../parts/data-table.js';
import { State } from '../../../parts/state.js';
import { Why } from '../../due/due-table.js';
import type { Change, Compared } from './pretence.js';

const tones: Readonly<Record<Change, Tone>> = {
  'newly-due': 'attention',
  'no-longer-due': 'done',
  moved: 'attention',
  otherwise: 'attention',
  same: 'plain',
};

/** What would be due, beside what is due now; the schedules that differ come first. */
export function Differences({ rows, day }: { rows: readonly Compared[]; day: CalendarDate }) {
  const differ = rows.filter((row) => row.change !== 'same');
  const all = [...differ, ...rows.filter((row) => row.change === 'same')];
  return (
    <div className="stack tight">
      <p role="status">
        <b>{say('what-if.count', { count: differ.length, day: { date: day } })}</b>
      </p>
      <DataTable
        caption={say('what-if.table')}
        rows={all}
        keyOf={(row) => row.schedule}
        columns={[
          {
            id: 'schedule',
            label: say('desk.due.treatment'),
            names: true,
            cell: ({ would, now }) => nameIn(would ?? now),
          },
          {
            id: 'change',
            label: say('what-if.change'),
            cell: ({ change }) => <State tone={tones[change]}>{say(`what-if.change.${change}`)}</State>,
          },
          { id: 'now', label: say('what-if.now'), cell: ({ now }) => <Standing item={now} /> },
          { id: 'then', label: say('what-if.then'), cell: ({ would }) => <Standing item={would} /> },
          { id: 'why', label: say('desk.due.why'), cell: ({ would }) => (would === null ? '' : <Why item={would} />) },
        ]}
      />
    </div>
  );
}

const nameIn = (item: DueItem | null): string => (item === null ? '' : treatmentName(item));

function Standing({ item }: { item: DueItem | null }) {
  if (item === null) return <>{say('parts.none')}</>;
  return (
    <>
      <State tone={stateOfDue(item).tone}>{stateOfDue(item).text}</State>{' '}
      <span className="mono small" style={{ whiteSpace: 'nowrap' }}>
        {item.due ?? ''}
      </span>
    </>
  );
}
