import { setTimeout } from 'node:timers/promises';
import type { Kysely, Transaction } from 'kysely';
import { CalendarDate } from '../../core/calendar.js';
import type { RecordId } from '../../core/ids.js';
import type { KeptEnvelope, LogStore, StoreTrouble } from '../../log/store.js';
import type { ReadRows } from '../../log/views/rows.js';
import { settle } from '../batch.js';
import {
  changesBetween,
  dayAt,
  emptyProjection,
  type Projection,
  project,
  rowsOf,
  type Tables,
} from '../projection.js';
import { heldPage } from './held.js';
import { allTables, emptyReadTables, makeReadTables, selectRows, shapeChecksum, writeChanges } from './read-tables.js';
import { type Database, fromRow, type HeadRow, toRows } from './tables.js';

/** Ids in one question, records in one statement or one page: under every store's limit of bound values. */
const atOnce = 500;

/** What is remembered between appends, so that the log is not read again each time. */
interface Memory {
  readonly projection: Projection;
  /** The read tables as they lie in the database for this place and day. */
  readonly tables: Tables;
  readonly seq: number;
  readonly on: string | null;
}

/** What differs from one kind of database to the next, said once when a store is opened. */
export interface Ways {
  /** Puts the driver's errors into a sentence. */
  readonly troubleOf: (error: unknown) => StoreTrouble;
  /** True for an error that says only that somebody else is writing; false always where the database itself waits. */
  readonly isBusy: (error: unknown) => boolean;
  /** Milliseconds to keep trying while somebody else is writing. */
  readonly busy_ms: number;
  /** Called after records were kept. */
  readonly kept: () => void;
  /** What the database itself finds wrong with its files and indexes. */
  readonly faults: () => readonly string[] | Promise<readonly string[]>;
}

/**
 * The log in any SQL database that Kysely speaks to: nothing below knows which. Appends take turns on the one row of
 * `log_head`: the first statement of every writing transaction updates it, which takes SQLite's write lock and
 * PostgreSQL's row lock alike.
 */
export function sqlStore(db: Kysely<Database>, ways: Ways): LogStore {
  let memory: Memory | null = null;
  let closed = false;

  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      // A TypeError is a fault of the caller (a record that JSON cannot carry), not of the database.
      throw error instanceof TypeError ? error : ways.troubleOf(error);
    }
  };

  const writing = <T>(work: (trx: Transaction<Database>) => Promise<T>): Promise<T> =>
    guarded(() => inTurn(ways, () => db.transaction().execute(work)));

  return {
    append: async (batch, receivedAt) => {
      const done = await writing(async (trx) => {
        const head = await takeTurn(trx);
        const there = await recordsById(trx, [...new Set(batch.map((record) => record.id))]);
        const { appended, fresh } = settle(batch, there, head, receivedAt);
        const rowsToKeep = toRows(fresh, head.hash);
        for (let from = 0; from < fresh.length; from += atOnce) {
          await trx
            .insertInto('records')
            .values(rowsToKeep.slice(from, from + atOnce))
            .execute();
        }
        const before = await projectionAt(trx, memory?.projection ?? emptyProjection, head.seq);
        const projection = project(before, fresh);
        const on = dayAt(projection.world, receivedAt);
        const upToDate = fresh.length === 0 && head.rows_seq === head.seq && head.rows_on === on && shaped(head);
        if (upToDate && memory !== null) return { appended, memory, fresh };
        if (!shaped(head)) await makeReadTables(trx);
        const tables = memoryFits(memory, head) ? memory.tables : await allTables(trx);
        const rows = rowsOf(projection.world, on);
        await writeChanges(trx, changesBetween(tables, rows));
        const last = fresh.at(-1);
        await writeHead(trx, {
          ...(last === undefined ? {} : { seq: last.seq, hash: last.hash, received_at: last.receivedAt }),
          rows_seq: projection.seq,
          rows_on: on,
          rows_shape: shapeChecksum,
        });
        return { appended, memory: { projection, tables: rows, seq: projection.seq, on }, fresh };
      });
      memory = done.memory;
      if (done.fresh.length > 0) ways.kept();
      return done.appended;
    },

    read: ({ after = 0, subject, ids, limit } = {}) =>
      guarded(async () => {
        if (ids !== undefined) {
          const found = [...(await recordsById(db, ids)).values()].filter(
            (record) => record.seq > after && (subject === undefined || record.subject === subject),
          );
          return found.sort((a, b) => a.seq - b.seq).slice(0, limit);
        }
        let statement = db.selectFrom('records').selectAll().where('seq', '>', after).orderBy('seq');
        if (subject !== undefined) statement = statement.where('subject', '=', subject);
        if (limit !== undefined) statement = statement.limit(limit);
        return (await statement.execute()).map(fromRow);
      }),

    held: (ask) => guarded(() => db.transaction().execute((trx) => heldPage(trx, ask))),

    head: () =>
      guarded(async () => {
        const head = await db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();
        const rowsOn = head.rows_on === null ? null : CalendarDate.parse(head.rows_on);
        return { seq: head.seq, hash: head.hash, receivedAt: head.received_at, rowsOn };
      }),

    rows: (table, where) =>
      guarded(async () => (await selectRows(db, table, where)) as unknown as ReadRows[typeof table][]),

    rebuild: async (today) => {
      memory = await writing((trx) => rebuild(trx, today));
    },

    faults: () => guarded(async () => ways.faults()),

    close: async () => {
      if (closed) return;
      closed = true;
      await db.destroy();
    },
  };
}

/**
 * Try a whole transaction again while somebody else is writing. The wait is ours and not the engine's, whose own would
 * hold up everything else that this program does. Waits are of uneven length, so that two do not keep step.
 */
export async function inTurn<T>(
  { isBusy, busy_ms }: Pick<Ways, 'isBusy' | 'busy_ms'>,
  work: () => Promise<T>,
): Promise<T> {
  const giveUpAt = performance.now() + busy_ms;
  for (let attempt = 0; ; attempt += 1) {
    try {
      return await work();
    } catch (error) {
      if (!isBusy(error) || performance.now() > giveUpAt) throw error;
      await setTimeout(2 + ((attempt * 7) % 23));
    }
  }
}

/** Rebuild inside a transaction; also used on opening a store whose read tables are of another shape. */
export async function rebuild(trx: Transaction<Database>, today: CalendarDate): Promise<Memory> {
  const head = await takeTurn(trx);
  const projection = await projectionAt(trx, emptyProjection, head.seq);
  const tables = rowsOf(projection.world, today);
  if (shaped(head)) await emptyReadTables(trx);
  else await makeReadTables(trx);
  await writeChanges(
    trx,
    Object.entries(tables).map(([table, rows]) => ({
      table: table as keyof Tables,
      put: [...rows.values()],
      remove: [],
    })),
  );
  await writeHead(trx, { rows_seq: head.seq, rows_on: today, rows_shape: shapeChecksum });
  return { projection, tables, seq: head.seq, on: today };
}

const shaped = (head: HeadRow): boolean => head.rows_shape === shapeChecksum;

const memoryFits = (memory: Memory | null, head: HeadRow): memory is Memory =>
  memory !== null && shaped(head) && memory.seq === head.rows_seq && memory.on === head.rows_on;

/** Wait for our turn to write, then say where the log stands. */
async function takeTurn(trx: Transaction<Database>): Promise<HeadRow> {
  return await trx
    .updateTable('log_head')
    .set((head) => ({ seq: head.ref('seq') }))
    .where('one', '=', 1)
    .returningAll()
    .executeTakeFirstOrThrow();
}

async function writeHead(trx: Transaction<Database>, head: Partial<HeadRow>): Promise<void> {
  await trx.updateTable('log_head').set(head).where('one', '=', 1).execute();
}

async function recordsById(db: Kysely<Database>, ids: readonly RecordId[]): Promise<Map<RecordId, KeptEnvelope>> {
  const found = new Map<RecordId, KeptEnvelope>();
  for (let from = 0; from < ids.length; from += atOnce) {
    const page = ids.slice(from, from + atOnce);
    const rows = await db.selectFrom('records').selectAll().where('id', 'in', page).execute();
    for (const record of rows.map(fromRow)) found.set(record.id, record);
  }
  return found;
}

/** Read on to a place: another process may have appended since. */
async function projectionAt(trx: Transaction<Database>, from: Projection, seq: number): Promise<Projection> {
  let projection = from;
  const pages: KeptEnvelope[] = [];
  let after = from.seq;
  while (after < seq) {
    const rows = await trx
      .selectFrom('records')
      .selectAll()
      .where('seq', '>', after)
      .where('seq', '<=', seq)
      .orderBy('seq')
      .limit(atOnce)
      .execute();
    if (rows.length === 0) break;
    pages.push(...rows.map(fromRow));
    after = rows.at(-1)?.seq ?? seq;
  }
  if (pages.length > 0) projection = project(projection, pages);
  return projection;
}
