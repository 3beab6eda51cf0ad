import { setImmediate, setTimeout } from 'node:timers/promises';
import type { Kysely, Transaction } from 'kysely';
import { CalendarDate, dayOfInstant } from '../../core/calendar.js';
import type { AnimalId, RecordId } from '../../core/ids.js';
import type { ReadRows, ReadTable } from '../../log/read-rows.js';
import type { LogRecord } from '../../log/record.js';
import type { Appended, Head, KeptEnvelope, LogStore, StoreTrouble } from '../../log/store.js';
import { settle } from '../batch.js';
import { tableNames } from '../read-tables.js';
import { rebuild, takeTurn, writeAnew, writeHead } from './anew.js';
import { animalsAfter, animalsInCare, staleAnimals } from './animals.js';
import { asWritten } from './as-written.js';
import { bringUp, type Done } from './bring-up.js';
import { inPages, run } from './compiled.js';
import { heldPage } from './held.js';
import { insertRows, selectRows, shapeChecksum } from './read-tables.js';
import {
  caughtUp,
  firstAnimal,
  type Memory,
  nothingRead,
  shelterRows,
  withKnown,
  withShelterRecords,
} from './shelter-memory.js';
import { type Database, fromRow, type HeadRow, toRows } from './tables.js';

/** Animals that are brought to a new day or ground in one turn, so that an append never waits for more than these. */
const inOneTurn = 20;

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

/** An append that waits for its turn. */
interface Waiting {
  readonly batch: readonly LogRecord[];
  readonly receivedAt: string;
  readonly answer: (appended: readonly Appended[]) => void;
  readonly fail: (error: unknown) => void;
}

/**
 * The log in a SQL database, by what `Ways` says of it. SQLite is the one that it is written for and tested with; another
 * would need at least an order of texts by code points, and a lock around migrations. Writers take turns on the one row of
 * `log_head`: the first statement of every writing transaction updates it, which takes the write lock.
 *
 * An append reads and writes the animals that it is about, and what hangs on them (bring-up.ts). Appends that come in
 * while others are being kept are kept together, in one transaction. A new day and another ground only say so; the
 * animals are brought there a few at a time, between appends.
 */
export function sqlStore(db: Kysely<Database>, ways: Ways): LogStore {
  let memory: Memory = nothingRead();
  let closed = false;
  const waiting: Waiting[] = [];
  let turning: Promise<void> | null = null;
  let looked: Promise<void> | null = null;

  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      // A TypeError is a fault of the caller (a record that JSON cannot carry), not of the database.
      throw error instanceof TypeError ? error : ways.troubleOf(error);
    }
  };

  /** The last writing, with what was remembered of it: whoever looks at the memory waits for it. */
  let settling: Promise<unknown> = Promise.resolve();

  /** Remembered only after the transaction is over: what was rolled back has not been. */
  const writing = <T extends { readonly done: Done }>(work: (trx: Transaction<Database>) => Promise<T>): Promise<T> => {
    const written = guarded(() => inTurn(ways, () => db.transaction().execute(work))).then((result) => {
      const { memory: now, known } = result.done;
      memory = { ...now, known: withKnown(now.known, known) };
      return result;
    });
    settling = written.catch(() => {});
    return written;
  };

  /** Where the log stands now, and the shelter there. */
  const current = (): Promise<{ readonly head: HeadRow; readonly now: Memory }> =>
    guarded(async () => {
      await settling;
      const head = await readHead(db);
      const now = await caughtUp(db, memory, head, head.turn);
      // A writing that came in between has been remembered, and is ahead of this.
      if (now.turn > memory.turn) memory = now;
      return { head, now };
    });

  /** Let the appends that wait, and otherwise some stale animals, have their turn, until there are none. */
  const turn = (): Promise<void> => {
    turning ??= (async () => {
      // What else has come in by now waits together with the first.
      await setImmediate();
      while (waiting.length > 0) {
        const together = waiting.splice(0);
        await keepTogether(together);
        await setImmediate();
      }
    })().finally(() => {
      turning = null;
    });
    return turning;
  };

  async function keepTogether(together: readonly Waiting[]): Promise<void> {
    try {
      const { answers, fresh } = await writing((trx) => keep(trx, memory, together));
      if (fresh > 0) ways.kept();
      for (const [index, { answer, fail }] of together.entries()) {
        const one = answers[index];
        if (one === undefined || !one.ok)
          fail(one?.error instanceof TypeError ? one.error : ways.troubleOf(one?.error));
        else answer(one.appended);
      }
    } catch (error) {
      // One of them may be to blame: each has a turn of its own, and takes no other along.
      if (together.length > 1) for (const one of together) await keepTogether([one]);
      else together[0]?.fail(error);
    }
  }

  /** Bring animals to the day and ground that hold now; `again` reads their records anew, whatever is remembered. */
  const bring = (ids: readonly AnimalId[], again: boolean): Promise<unknown> =>
    writing(async (trx) => {
      const { head, now } = await takeTurn(trx, memory);
      const on = CalendarDate.parse(head.rows_on);
      const known = again ? new Map([...now.known].filter(([id]) => !ids.includes(id))) : now.known;
      return { done: await bringUp(trx, now, { ...now, known }, on, on, [], ids) };
    });

  /** Bring stale animals up, a few at a time: one of them, those in care, or all. */
  async function brought(which: { readonly animal: string } | 'in-care' | 'all'): Promise<void> {
    while (!closed) {
      const { head, now } = await current();
      if (!now.stale) return;
      const rows = await guarded(() => {
        const asked = staleAnimals(db, now.groundKey, head.rows_on).select('animal').limit(inOneTurn);
        if (which === 'all') return asked.orderBy('in_care', 'desc').execute();
        return (
          which === 'in-care' ? asked.where('in_care', '=', 1) : asked.where('animal', '=', which.animal)
        ).execute();
      });
      if (rows.length === 0) {
        if (which === 'all' && memory.turn === now.turn) memory = { ...memory, stale: false };
        return;
      }
      await bring(
        rows.map(({ animal }) => animal as AnimalId),
        false,
      );
      await setImmediate();
    }
  }

  let bringing: Promise<void> | null = null;
  /** Bring everything up in the background, a few animals at a time. */
  const bringAll = (): Promise<void> => {
    bringing ??= brought('all').finally(() => {
      bringing = null;
    });
    return bringing;
  };

  /** Read the records of every animal in care again, so that what was damaged since is known. */
  const lookAgain = async (): Promise<void> => {
    let after = '';
    for (;;) {
      if (closed) return;
      const ids = await guarded(() => animalsInCare(db, after, inOneTurn));
      if (ids.length === 0) return;
      await bring(ids, true);
      after = ids.at(-1) ?? after;
      await setImmediate();
    }
  };

  return {
    append: (batch, receivedAt) =>
      new Promise((answer, fail) => {
        waiting.push({ batch, receivedAt, answer, fail });
        void turn().then(() => {
          if (memory.stale && !closed) bringAll().catch(() => {});
        });
      }),

    read: ({ after = 0, subject, types, ids, about, trusted = false, limit } = {}) =>
      guarded(async () => {
        if (ids !== undefined) {
          const found = [...(await recordsById(db, ids)).values()].filter(
            (record) => record.seq > after && (subject === undefined || record.subject === subject),
          );
          return found.sort((a, b) => a.seq - b.seq).slice(0, limit);
        }
        if (about === 'shelter') return await shelterRows(db, after, limit, trusted ? asWritten : fromRow);
        let statement = db.selectFrom('records').selectAll().where('seq', '>', after).orderBy('seq');
        if (subject !== undefined) statement = statement.where('subject', '=', subject);
        if (types !== undefined) {
          // A semicolon is what comes after a colon.
          statement = statement.where(({ and, eb, or }) =>
            or(types.map((type) => and([eb('subject', '>=', `${type}:`), eb('subject', '<', `${type};`)]))),
          );
        }
        if (limit !== undefined) statement = statement.limit(limit);
        return (await statement.execute()).map(trusted ? asWritten : fromRow);
      }),

    held: (ask) => guarded(() => db.transaction().execute((trx) => heldPage(trx, ask))),
    animals: ({ after = '', limit, inCare = false }) =>
      guarded(() => (inCare ? animalsInCare(db, after, limit) : animalsAfter(db, after, limit))),

    shelter: async () => (await current()).now.shelter,

    unreadable: async () => {
      looked ??= lookAgain();
      await looked;
      const { unread } = (await current()).now;
      const { count } = await guarded(() =>
        db
          .selectFrom('animal_folds')
          .select(({ fn }) => fn.sum<number | null>('unread').as('count'))
          .where('in_care', '=', 1)
          .executeTakeFirstOrThrow(),
      );
      return unread.length + Number(count ?? 0);
    },

    head: () =>
      guarded(async () => {
        const { head, now } = await current();
        const rowsOn = head.rows_on === null ? null : CalendarDate.parse(head.rows_on);
        const { count } = now.stale
          ? await staleAnimals(db, now.groundKey, head.rows_on)
              .select(({ fn }) => fn.countAll<number>().as('count'))
              .executeTakeFirstOrThrow()
          : { count: 0 };
        return { seq: head.seq, hash: head.hash, receivedAt: head.received_at, rowsOn, stale: Number(count) };
      }),

    rows: async (table, where) => {
      const only: unknown = (where as { readonly animal?: unknown } | undefined)?.animal;
      await brought(typeof only === 'string' ? { animal: only } : 'in-care');
      return await guarded(async () => (await selectRows(db, table, where)) as unknown as ReadRows[typeof table][]);
    },

    counts: () =>
      guarded(async () => {
        const counts: Partial<Record<ReadTable, number>> = {};
        for (const table of tableNames) {
          const { count } = await db
            .selectFrom(table)
            .select(({ fn }) => fn.countAll<number>().as('count'))
            .executeTakeFirstOrThrow();
          counts[table] = Number(count);
        }
        return counts as Record<ReadTable, number>;
      }),

    upToDate: () => bringAll(),

    rebuild: async (today) => {
      await writing(async (trx) => ({ done: await rebuild(trx, today) }));
    },

    faults: () => guarded(async () => ways.faults()),

    close: async () => {
      if (closed) return;
      await turning;
      closed = true;
      await Promise.allSettled([bringing, looked]);
      await db.destroy();
    },
  };
}

/** What became of one batch of those that were kept together. */
type Answer =
  | { readonly ok: true; readonly appended: readonly Appended[] }
  | { readonly ok: false; readonly error: unknown };

async function keep(trx: Transaction<Database>, memory: Memory, together: readonly Waiting[]) {
  const { head, now: before } = await takeTurn(trx, memory);
  // Another program has made the read tables in its own shape meanwhile.
  if (head.rows_shape !== shapeChecksum) await writeAnew(trx, head, before, CalendarDate.parse(head.rows_on));
  const there = await recordsById(trx, [...new Set(together.flatMap(({ batch }) => batch.map(({ id }) => id)))]);
  const answers: Answer[] = [];
  const fresh: KeptEnvelope[] = [];
  let end: Pick<Head, 'seq' | 'hash' | 'receivedAt'> = { ...head, receivedAt: head.received_at };
  let at: string | null = null;
  for (const { batch, receivedAt } of together) {
    try {
      const settled = settle(batch, there, end, receivedAt);
      for (const record of settled.fresh) there.set(record.id, record);
      fresh.push(...settled.fresh);
      end = settled.fresh.at(-1) ?? end;
      at = settled.at;
      answers.push({ ok: true, appended: settled.appended });
    } catch (error) {
      answers.push({ ok: false, error });
    }
  }
  const rows = toRows(fresh, head.hash);
  const [first] = rows;
  if (first !== undefined) await insertRows(trx, 'records', Object.keys(first), rows);
  // As they come back from the database: nobody else holds a part of them.
  const kept = rows.map(fromRow);
  const caught = { ...before, seq: end.seq };
  const now = withShelterRecords(
    caught,
    kept.filter(({ subject }) => !subject.startsWith(firstAnimal)),
  );
  const was = head.rows_on === null ? null : CalendarDate.parse(head.rows_on);
  const on = at === null ? was : dayOfInstant(at, now.shelter.zone);
  if (on === null) return { done: { memory: now, known: new Map() }, answers, fresh: 0 };
  const done = await bringUp(trx, before, now, on, was, kept);
  const received = fresh.at(-1)?.receivedAt;
  if (received !== undefined || on !== was) {
    await writeHead(trx, {
      ...(received === undefined ? {} : { seq: end.seq, hash: end.hash, received_at: received }),
      rows_on: on,
      rows_shape: shapeChecksum,
    });
  }
  return { done, answers, fresh: fresh.length };
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

const readHead = (db: Kysely<Database>): Promise<HeadRow> =>
  db.selectFrom('log_head').selectAll().executeTakeFirstOrThrow();

async function recordsById(db: Kysely<Database>, ids: readonly RecordId[]): Promise<Map<RecordId, KeptEnvelope>> {
  const found = new Map<RecordId, KeptEnvelope>();
  for (const page of inPages(ids)) {
    const asking = () => db.selectFrom('records').selectAll().where('id', 'in', page);
    const rows = await run(db, `records by id ${page.length}`, asking, page);
    for (const record of rows.map(fromRow)) found.set(record.id, record);
  }
  return found;
}
