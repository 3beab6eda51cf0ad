import type { Source } from '../../../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import type { Tone } from '../../../../told/tone.js';
import { say } from '../../../../words/say.js';
import { DataTable } from '../../../parts/data-table.js';
import { State } from '../../../parts/state.js';
import { type SourcedValue, SourceTitle } from '../sourced.js';
import type { SideBySide } from './changes.js';

interface ChangesTableProps {
  readonly rows: readonly SideBySide[];
  readonly before: ProtocolDocument;
  readonly after: ProtocolDocument;
  readonly caption: string;
}

const tones: Readonly<Record<SideBySide['change'], Tone>> = {
  same: 'plain',
  changed: 'attention',
  new: 'attention',
  gone: 'stop',
};

/** Two versions side by side: each value with its source, and a sign and a word where they part. */
export function ChangesTable({ rows, before, after, caption }: ChangesTableProps) {
  return (
    <DataTable
      caption={caption}
      rows={rows}
      keyOf={(row) => row.key}
      empty={say('protocol-desk.no-changes')}
      columns={[
        {
          id: 'what',
          label: say('protocol-desk.value'),
          names: true,
          cell: (row) => (
            <>
              {row.schedule === '' ? say('protocol-desk.whole-document') : row.schedule}
              <div className="soft small">{row.what}</div>
            </>
          ),
        },
        {
          id: 'change',
          label: say('what-if.change'),
          cell: (row) => <State tone={tones[row.change]}>{say(`protocol-desk.change.${row.change}`)}</State>,
        },
        {
          id: 'before',
          label: say('protocol-desk.version', { version: before.version }),
          cell: (row) => <Side value={row.before} sources={before.sources} />,
        },
        {
          id: 'after',
          label: say('protocol-desk.version', { version: after.version }),
          cell: (row) => (
            <>
              <Side value={row.after} sources={after.sources} />
              <Departure row={row} sources={before.sources} />
            </>
          ),
        },
      ]}
    />
  );
}

function Side({ value, sources }: { value: SourcedValue | null; sources: readonly Source[] }) {
  if (value === null) return <span className="soft">{say('parts.none')}</span>;
  return (
    <>
      <b>{value.value}</b>
      {value.source === '' ? null : (
        <div className="small">
          <SourceTitle id={value.source} sources={sources} />{' '}
          <span className="soft">
            {value.what === '' ? '' : say(`desk.standing.${value.standing}`)}
            {value.note === '' ? '' : `. ${value.note}`}
          </span>
        </div>
      )}
    </>
  );
}

/** Which published source a changed value no longer follows. */
function Departure({ row, sources }: { row: SideBySide; sources: readonly Source[] }) {
  const { before, after, change } = row;
  if (before === null || before.source === '' || change === 'same' || before.value === after?.value) return null;
  const title = sources.find((one) => one.id === before.source)?.title ?? before.source;
  return (
    <p className="small">
      <State tone="attention">{say('protocol-desk.departs', { title })}</State>
    </p>
  );
}
