import type { AnimalId, RecordId } from '../../core/ids.js';
import { canonical } from '../../log/canonical.js';
import { noHash } from '../../log/hash.js';
import type { ReadRows, ReadTable } from '../../log/read-rows.js';
import { isAnimalRecord, subjectOf } from '../../log/record.js';
import type { Head, KeptEnvelope, LogStore } from '../../log/store.js';
import { settle } from '../batch.js';
import { heldIn } from '../held.js';
import { dayAt, emptyProjection, emptyTables, project, rowsOf, type Tables } from '../projection.js';
import { compareKeys, compareTexts, tableNames } from '../read-tables.js';

/** A log kept in memory, gone with the process: for tests and for trying things out. Passes the contract suite. */
export function memoryStore(): LogStore {
  let log: readonly KeptEnvelope[] = [];
  let byId: ReadonlyMap<RecordId, KeptEnvelope> = new Map();
  let head: Head = { seq: 0, hash: noHash, receivedAt: null, rowsOn: null, stale: 0 };
  let projection = emptyProjection;
  let tables: Tables = emptyTables();

  return {
    // No step of an append waits for anything, so appends take turns by themselves, and nothing is assigned before
    // everything has been worked out.
    append: async (batch, receivedAt) => {
      const { appended, fresh, at } = settle(batch, byId, head, receivedAt);
      const kept = fresh.map(frozenCopy);
      const next = project(projection, kept);
      const today = dayAt(next.world, at);
      const rows = rowsOf(next.world, today);
      const last = kept.at(-1);
      projection = next;
      tables = rows;
      log = [...log, ...kept];
      byId = new Map([...byId, ...kept.map((record) => [record.id, record] as const)]);
      head = {
        seq: last?.seq ?? head.seq,
        hash: last?.hash ?? head.hash,
        receivedAt: last?.receivedAt ?? head.receivedAt,
        rowsOn: today,
        stale: 0,
      };
      return appended;
    },
    read: async ({ after = 0, subject, types, ids, about, limit = Number.POSITIVE_INFINITY } = {}) =>
      log
        .filter((record) => about === undefined || !isAnimalRecord(record))
        .filter((record) => record.seq > after && (subject === undefined || record.subject === subject))
        .filter((record) => types === undefined || types.includes(record.subject.split(':')[0] ?? ''))
        .filter((record) => ids === undefined || ids.includes(record.id))
        .slice(0, limit),
    held: async (ask) => heldIn(log, (animal) => (projection.world.animals.get(animal)?.left ?? null) !== null, ask),
    animals: async ({ after = '', limit, inCare = false }) => {
      const ids = log.filter(isAnimalRecord).map((record) => subjectOf(record).id as AnimalId);
      const isHere = (id: AnimalId): boolean => (projection.world.animals.get(id)?.left ?? null) === null;
      const wanted = [...new Set(ids)].filter((id) => !inCare || isHere(id));
      const behind = wanted.filter((id) => compareTexts(id, after) > 0);
      return behind.sort(compareTexts).slice(0, limit);
    },
    shelter: async () => projection.world.shelter,
    unreadable: async () => projection.unreadable.length,
    head: async () => head,
    rows: async (table, where = {}) => {
      const wanted = Object.entries(where).filter(([, value]) => value !== undefined);
      const rows = [...tables[table].values()]
        .filter((row) => wanted.every(([column, value]) => row[column] === value))
        .sort((a, b) => compareKeys(table, a, b));
      return rows as unknown as ReadRows[typeof table][];
    },
    counts: async () =>
      Object.fromEntries(tableNames.map((table) => [table, tables[table].size])) as Record<ReadTable, number>,
    upToDate: async () => {},
    rebuild: async (today) => {
      projection = project(emptyProjection, log);
      tables = rowsOf(projection.world, today);
      head = { ...head, rowsOn: today };
    },
    faults: async () => [],
    close: async () => {},
  };
}

/** As it would come back from a disk: nobody else holds a part of it. */
const frozenCopy = (record: KeptEnvelope): KeptEnvelope =>
  JSON.parse(canonical(record), (_name, value: unknown) => Object.freeze(value)) as KeptEnvelope;
