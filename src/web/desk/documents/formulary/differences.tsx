import type { FormularyDocument } from '../../../../core/dosing/formulary.js';
import { type ChangedValue, changedParts } from '../../../../core/protocol/document/compare.js';
import { say } from '../../../../words/say.js';
import { DataTable } from '../../../parts/data-table.js';

/** Every value in which two versions differ; their own names and numbers aside. */
export function differencesOf(before: FormularyDocument, after: FormularyDocument): ChangedValue[] {
  const { id: _a, version: _b, sources: _c, ...old } = before;
  const { id: _d, version: _e, sources: _f, ...now } = after;
  // A product is an entry of twenty fields: each is told by itself.
  return changedParts(old, now, [], () => false);
}

interface DifferencesProps {
  /** The signed version, or null while there is none. */
  readonly before: FormularyDocument | null;
  readonly after: FormularyDocument;
}

/** What a version changes against the signed one, value by value, with the source each departs from. */
export function Differences({ before, after }: DifferencesProps) {
  if (before === null) return <p>{say('formulary-desk.all-new')}</p>;
  const rows = differencesOf(before, after);
  const title = (id: string | null): string | null =>
    id === null ? null : (before.sources.find((one) => one.id === id)?.title ?? id);
  return (
    <div className="stack tight">
      <p>{say('formulary-desk.differs', { count: rows.length, version: before.version })}</p>
      {rows.length === 0 ? null : (
        <DataTable
          caption={say('formulary-desk.differs', { count: rows.length, version: before.version })}
          rows={rows}
          keyOf={(row) => row.at.join(' ')}
          columns={[
            { id: 'place', label: say('formulary-desk.place'), names: true, cell: (row) => placeOf(row.at, after) },
            { id: 'before', label: say('formulary-desk.before'), cell: (row) => textOf(row.before) },
            {
              id: 'after',
              label: say('formulary-desk.after'),
              cell: (row) => (
                <>
                  {textOf(row.after)}
                  {row.departsFrom === null ? null : (
                    <div className="soft small">
                      {say('formulary-desk.departs', { title: title(row.departsFrom) ?? '' })}
                    </div>
                  )}
                </>
              ),
            },
          ]}
        />
      )}
    </div>
  );
}

/** The way to a value, a product by its name. */
function placeOf(at: readonly string[], { products }: FormularyDocument): string {
  const [list, id, ...rest] = at;
  const product = list === 'products' ? products.find((one) => one.id === id) : undefined;
  return (product === undefined ? at : [product.name, ...rest]).join(' › ');
}

const longest = 240;
function textOf(value: unknown): string {
  if (value === undefined || value === null) return say('formulary-desk.not-there');
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > longest ? `${text.slice(0, longest)} …` : text;
}
