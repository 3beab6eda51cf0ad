import type { ReactNode } from 'react';

export interface Column<Row> {
  readonly id: string;
  readonly label: string;
  readonly cell: (row: Row) => ReactNode;
  readonly num?: boolean;
  readonly keepLine?: boolean;
  /** The column that names the row. */
  readonly names?: boolean;
}

interface DataTableProps<Row> {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row) => string;
  readonly struck?: (row: Row) => boolean;
  /** Hide the caption from sight (a heading above already says it). */
  readonly quiet?: boolean;
  readonly empty?: ReactNode;
  /** On a phone each row becomes a small card; off for tables of figures that only make sense side by side. */
  readonly fold?: boolean;
  /** Rows that follow each other with the same group share one cell in the naming column. */
  readonly groupOf?: (row: Row) => string;
}

/** A ruled table with its heading line; on a phone the rows fold, and nothing makes the page scroll sideways. */
export function DataTable<Row>(props: DataTableProps<Row>) {
  const { caption, columns, rows, keyOf, struck, quiet = true, empty, fold = true, groupOf } = props;
  const group = (at: number): string | null => {
    const row = rows[at];
    return row === undefined || groupOf === undefined ? null : groupOf(row);
  };
  /** How many rows from here on share the naming cell; 0 when it stands in a row above. */
  const spanAt = (at: number): number => {
    if (groupOf === undefined) return 1;
    if (at > 0 && group(at - 1) === group(at)) return 0;
    let end = at + 1;
    while (end < rows.length && group(end) === group(at)) end += 1;
    return end - at;
  };
  if (rows.length === 0 && empty !== undefined) return <p className="soft">{empty}</p>;
  return (
    // A frame that can scroll sideways must be reachable by keyboard.
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields, this frame holds a table
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrollable region (WCAG 2.1.1), axe scrollable-region-focusable
    <div className={fold ? 'table-frame fold' : 'table-frame'} role="group" aria-label={caption} tabIndex={0}>
      <table>
        <caption className={quiet ? 'away' : ''}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.id} scope="col" className={column.num ? 'num' : ''}>
                {column.label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, at) => (
            <tr key={keyOf(row)} className={struck?.(row) ? 'struck' : ''}>
              {columns.map((column) => {
                const name = [column.num ? 'num' : '', column.keepLine ? 'keep-line' : ''].join(' ').trim();
                if (!column.names) {
                  return (
                    <td key={column.id} className={name} data-label={column.label}>
                      <div className="cell">{column.cell(row)}</div>
                    </td>
                  );
                }
                const span = spanAt(at);
                return span === 0 ? null : (
                  <th
                    key={column.id}
                    scope={span > 1 ? 'rowgroup' : 'row'}
                    rowSpan={span}
                    className={name}
                    data-label={column.label}
                  >
                    <div className="cell">{column.cell(row)}</div>
                  </th>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
