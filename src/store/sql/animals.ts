import { type Kysely, sql, type Transaction } from 'kysely';
import { grown } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { ownerOf } from '../../log/flags/flags.js';
import type { ReadTable } from '../../log/read-rows.js';
import type { LogRecord } from '../../log/record.js';
import type { KeptEnvelope } from '../../log/store.js';
import type { Row } from '../read-tables.js';
import { keyedRows, type OwnRecords, type OwnRows, type OwnTable, ownTables, type Rows, readOwn } from '../subject.js';
import { asWritten } from './as-written.js';
import { inPages, run } from './compiled.js';
import { rowsWith } from './read-tables.js';
import { firstAnimal, type Memory } from './shelter-memory.js';
import type { Database } from './tables.js';

type Trx = Transaction<Database>;

/** The animal of a subject. */
export const idOf = (subject: string): AnimalId => subject.slice(firstAnimal.length) as AnimalId;

/** The records of an animal, and the rows that lie there for it. */
export type Old = OwnRecords & { readonly rows: OwnRows; readonly flags: Rows };

/** The records of animals up to now, and the rows that lie there for them. */
export async function lastKnown(
  trx: Trx,
  now: Memory,
  ids: readonly AnimalId[],
  more: ReadonlyMap<AnimalId, readonly LogRecord[]>,
): Promise<Old[]> {
  const missing = ids.filter((id) => !now.known.has(id));
  const read = new Map((missing.length === 0 ? [] : await readAnimals(trx, missing)).map((own) => [own.id, own]));
  const rows = missing.length === 0 ? null : await rowsThere(trx, missing);
  return ids.flatMap((id): Old[] => {
    const known = now.known.get(id);
    if (known !== undefined) {
      const own = more.get(id) ?? [];
      return [
        { ...known, records: own.length === 0 ? known.records : grown(known.records, own, [...known.records, ...own]) },
      ];
    }
    const own = read.get(id);
    return own === undefined || rows === null ? [] : [{ ...own, ...rowsOfOne(rows, id) }];
  });
}

/** The records of animals, read from the log. */
export async function readAnimals(db: Kysely<Database>, ids: readonly AnimalId[]): Promise<OwnRecords[]> {
  const kept = new Map<AnimalId, KeptEnvelope[]>(ids.map((id) => [id, []]));
  for (const subjects of inPages(ids.map((id) => `${firstAnimal}${id}`))) {
    const asking = () =>
      db.selectFrom('records').selectAll().where('subject', 'in', subjects).orderBy('subject').orderBy('seq');
    const rows = await run(db, `records by subject ${subjects.length}`, asking, subjects);
    for (const row of rows) kept.get(idOf(row.subject))?.push(asWritten(row));
  }
  return [...kept].map(([id, records]) => readOwn(id, records));
}

type There = Readonly<Record<OwnTable | 'flags', ReadonlyMap<string, readonly Row[]>>>;

/** The rows that lie there for animals. One that was never worked out has none, and is not asked for. */
async function rowsThere(trx: Trx, ids: readonly AnimalId[]): Promise<There> {
  const folded: string[] = [];
  for (const some of inPages(ids)) {
    const asking = () => trx.selectFrom('animal_folds').select('animal').where('animal', 'in', some);
    const rows = await run(trx, `animal_folds by animal ${some.length}`, asking, some);
    folded.push(...rows.map(({ animal }) => animal));
  }
  const there: Partial<Record<ReadTable, ReadonlyMap<string, readonly Row[]>>> = {};
  for (const table of ownTables) there[table] = groupedBy('animal', await rowsWith(trx, table, 'animal', folded));
  const owners = folded.map(ownerOf.animal);
  there.flags = groupedBy('owner', await rowsWith(trx, 'flags', 'owner', owners));
  return there as There;
}

export function groupedBy(column: string, rows: readonly Row[]): ReadonlyMap<string, readonly Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = String(row[column]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}

function rowsOfOne(there: There, id: AnimalId): { readonly rows: OwnRows; readonly flags: Rows } {
  const rows = ownTables.map((table) => [table, keyedRows(table, there[table].get(id) ?? [])] as const);
  const flags = keyedRows('flags', there.flags.get(ownerOf.animal(id)) ?? []);
  return { rows: Object.fromEntries(rows) as unknown as OwnRows, flags };
}

/** How many animals have rows that stand for another day or are judged by what does not hold any more. */
export const staleAnimals = (db: Kysely<Database>, groundKey: string, today: string | null) =>
  db
    .selectFrom('animal_folds')
    .where(({ eb, and, or }) =>
      or([eb('ground', '<>', groundKey), and([eb('at_rest', '=', 0), eb('rows_on', '<>', today ?? '')])]),
    );

/** Every animal with records, page by page in the order of ids. */
export async function animalsAfter(db: Kysely<Database>, after: string, limit: number): Promise<AnimalId[]> {
  const rows = await db
    .selectFrom('records')
    .select('subject')
    .distinct()
    .where('subject', '>', `${firstAnimal}${after}`)
    .where('subject', '<', sql<string>`'animal;'`)
    .orderBy('subject')
    .limit(limit)
    .execute();
  return rows.map(({ subject }) => idOf(subject));
}

/** Those that have not left, among them those that nobody has taken in. */
export async function animalsInCare(db: Kysely<Database>, after: string, limit: number): Promise<AnimalId[]> {
  const rows = await db
    .selectFrom('animal_folds')
    .select('animal')
    .where('in_care', '=', 1)
    .where('animal', '>', after)
    .orderBy('animal')
    .limit(limit)
    .execute();
  return rows.map(({ animal }) => animal as AnimalId);
}
