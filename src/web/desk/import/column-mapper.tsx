import { type ColumnMapping, type Field, fields, joined } from '../../../core/intake/columns/fields.js';
import type { Table } from '../../../core/intake/file/table.js';
import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';

interface ColumnMapperProps {
  readonly table: Table;
  readonly mapping: ColumnMapping;
  readonly onMapping: (mapping: ColumnMapping) => void;
}

/** Each column of the file with samples of its cells, and what it is taken for; the guess can be changed. */
export function ColumnMapper({ table, mapping, onMapping }: ColumnMapperProps) {
  const columns = table.headings.map((heading, at) => ({
    at,
    heading,
    samples: samplesOf(table, at),
    means: meansOf(mapping, at),
  }));
  return (
    <DataTable
      caption={say('desk.import.columns')}
      rows={columns}
      keyOf={(column) => String(column.at)}
      columns={[
        { id: 'heading', label: say('desk.import.heading'), names: true, cell: (column) => column.heading },
        {
          id: 'samples',
          label: say('desk.import.samples'),
          cell: (column) => <span className="mono small">{column.samples.join(' | ')}</span>,
        },
        {
          id: 'means',
          label: say('desk.import.means'),
          cell: (column) => (
            <span className="field">
              <select
                aria-label={say('desk.import.means-of', { heading: column.heading })}
                value={column.means}
                onChange={(event) => onMapping(put(mapping, column.at, event.currentTarget.value))}
              >
                <option value="">{say('desk.import.nothing')}</option>
                {fields.map((field) => (
                  <option key={field} value={field}>
                    {say(`desk.import.field.${field}`)}
                  </option>
                ))}
              </select>
            </span>
          ),
        },
      ]}
    />
  );
}

function samplesOf(table: Table, at: number): string[] {
  const filled = table.rows.map((row) => row.cells[at] ?? '').filter((cell) => cell !== '');
  return [...new Set(filled)].slice(0, 3).map((cell) => (cell.length > 40 ? `${cell.slice(0, 40)} …` : cell));
}

/** The first field a column stands for; a date that is also the day of the age shows as the date. */
function meansOf(mapping: ColumnMapping, at: number): string {
  const found = fields.filter((field) => (mapping[field] ?? []).includes(at));
  return found.find((field) => field !== 'ageOn') ?? found[0] ?? '';
}

/** The columns with one of them taken as something else; '' leaves it out. */
export function put(mapping: ColumnMapping, at: number, wanted: string): ColumnMapping {
  const entries = fields.map((field): [Field, readonly number[]] => [
    field,
    (mapping[field] ?? []).filter((one) => one !== at),
  ]);
  const next = new Map(entries);
  const field = fields.find((one) => one === wanted);
  if (field !== undefined) {
    const others = joined.includes(field) ? (next.get(field) ?? []) : [];
    next.set(
      field,
      [...others, at].sort((a, b) => a - b),
    );
  }
  return Object.fromEntries([...next].filter(([, columns]) => columns.length > 0));
}
