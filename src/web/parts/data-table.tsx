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
}

/** A ruled table with its heading line; on a phone the rows fold, and nothing makes the page scroll sideways. */
export function DataTable<Row>(props: DataTableProps<Row>) {
  const { caption, columns, rows, keyOf, struck, quiet = true, empty, fold = true } = props;
  if (rows.length === 0 && empty !== undefined) return <p className="soft">{empty}</p>;
  return (
    // A frame that can scroll sideways must be reachable by keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrollable region (WCAG 2.1.1), see axe rule scrollable-region-focusable
    <section className={fold ? 'table-frame fold' : 'table-frame'} aria-label={caption} tabIndex={0}>
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
          {rows.map((row) => (
            <tr key={keyOf(row)} className={struck?.(row) ? 'struck' : ''}>
              {columns.map((column) => {
                const name = [column.num ? 'num' : '', column.keepLine ? 'keep-line' : ''].join(' ').trim();
                return column.names ? (
                  <th key={column.id} scope="row" className={name} data-label={column.label}>
                    {column.cell(row)}
                  </th>
                ) : (
                  <td key={column.id} className={name} data-label={column.label}>
                    {column.cell(row)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
