import { type ChainReport, chainStart, verifyChain } from '../log/hash.js';
import type { Head, KeptEnvelope, LogStore } from '../log/store.js';
import {
  compareTables,
  emptyProjection,
  emptyTables,
  type Projection,
  project,
  rowsOf,
  type Unreadable,
} from './projection.js';
import { keyText, type Row, tableNames } from './read-tables.js';

export interface StoreReport {
  /** Chain unbroken up to the head, every record readable, every read table as rebuilt, the file itself in order. */
  readonly whole: boolean;
  readonly head: Head;
  readonly records: number;
  readonly chain: ChainReport;
  readonly unreadable: readonly Unreadable[];
  /** What the engine finds wrong with its own file and indexes. */
  readonly engine: readonly string[];
  readonly tables: ReturnType<typeof compareTables>;
}

const page = 500;

/** Records page by page, so that a long log never lies in memory twice. */
export async function* pages(store: LogStore, from = 0): AsyncGenerator<readonly KeptEnvelope[]> {
  let after = from;
  for (;;) {
    const records = await store.read({ after, limit: page });
    const last = records.at(-1);
    if (last === undefined) return;
    yield records;
    after = last.seq;
  }
}

/**
 * Follow the chain of the whole log, work the read tables out again from the records alone, for the day they stand
 * for, and compare. Changes nothing. While others append, the head may move between two steps; it is then done again.
 */
export async function verifyStore(store: LogStore): Promise<StoreReport> {
  for (let attempt = 1; ; attempt += 1) {
    const before = await store.head();
    const report = await lookThrough(store, before);
    const after = await store.head();
    const still = before.seq === after.seq && before.rowsOn === after.rowsOn;
    if (still || attempt === 5) return report;
  }
}

async function lookThrough(store: LogStore, head: Head): Promise<StoreReport> {
  let chain: ChainReport = { whole: true, end: chainStart };
  let records = 0;
  let projection: Projection = emptyProjection;
  for await (const some of pages(store)) {
    records += some.length;
    if (chain.whole) chain = verifyChain(some, chain.end);
    projection = project(projection, some);
  }
  if (chain.whole && (chain.end.seq !== head.seq || chain.end.hash !== head.hash)) {
    chain = { whole: false, brokenAt: Math.min(chain.end.seq, head.seq) + 1, fault: 'place-missing' };
  }
  const should = head.rowsOn === null ? emptyTables() : rowsOf(projection.world, head.rowsOn);
  const tables = compareTables(await tablesOf(store), should);
  const sound = tables.every((table) => table.missing + table.extra + table.different === 0);
  const { unreadable } = projection;
  const engine = await store.faults();
  const whole = chain.whole && unreadable.length === 0 && sound && engine.length === 0;
  return { whole, head, records, chain, unreadable, engine, tables };
}

async function tablesOf(store: LogStore) {
  const tables = emptyTables();
  for (const table of tableNames) {
    for (const row of (await store.rows(table)) as unknown as Row[]) tables[table].set(keyText(table, row), row);
  }
  return tables;
}
