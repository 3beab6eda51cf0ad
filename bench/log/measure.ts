import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import SqliteDatabase from 'better-sqlite3';
import { grown } from '../../src/core/derived.js';
import type { AnimalId } from '../../src/core/ids.js';
import { canonical } from '../../src/log/canonical.js';
import { hash, noHash } from '../../src/log/hash.js';
import { type LogRecord, parseRecord } from '../../src/log/record.js';
import { groundOf } from '../../src/log/views/ground.js';
import { sha256 } from '../../src/store/sha256.js';
import { openStore, type SqliteStore, storeFile } from '../../src/store/sqlite/open.js';
import { flagRowsOf, foldOwn, readOwn } from '../../src/store/subject.js';
import { median } from '../report.js';
import { animalDrafts, at, atTheCage, inCare, shelterDrafts, today, writer } from './shelter.js';

interface Statement {
  readonly sql: string;
  readonly parameters: readonly unknown[];
}

/** Fill a folder with a log of so many records, appended by the store's own way in batches. */
export async function fill(folder: string, records: number): Promise<void> {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(opened.why.say);
  const write = writer('filling');
  let batch = write(shelterDrafts());
  let written = 0;
  for (let n = 0; written + batch.length < records; n += 1) {
    batch.push(...write(animalDrafts(n, n >= inCare)));
    if (batch.length < 1000) continue;
    await opened.value.append(batch, at(today));
    written += batch.length;
    batch = [];
  }
  await opened.value.append(batch, at(today));
  await opened.value.upToDate();
  await opened.value.close();
}

/** Writes what an append wrote, and nothing else, on a copy of the log: prepared statements, one transaction. */
function yardstick(file: string) {
  const engine = new SqliteDatabase(file);
  engine.pragma('journal_mode = WAL');
  engine.pragma('synchronous = FULL');
  engine.pragma('foreign_keys = ON');
  const prepared = new Map<string, SqliteDatabase.Statement>();
  return {
    write: (statements: readonly Statement[]): number => {
      for (const { sql } of statements) if (!prepared.has(sql)) prepared.set(sql, engine.prepare(sql));
      const start = performance.now();
      engine.exec('begin immediate');
      for (const { sql, parameters } of statements) {
        const statement = prepared.get(sql);
        if (statement?.reader === true) statement.all(...parameters);
        else statement?.run(...parameters);
      }
      engine.exec('commit');
      return performance.now() - start;
    },
    close: () => engine.close(),
  };
}

const writes = (statements: readonly Statement[]): Statement[] =>
  statements.filter(({ sql }) => /^(insert|update|delete)/.test(sql));

export interface Timed {
  readonly append_ms: number;
  readonly yardstick_ms: number;
  readonly statements: number;
}

/** Appends of `size` records each, and in turn what each wrote by itself on a copy. Medians. */
export async function appends(folder: string, copy: string, turns: number, size: number, from: number): Promise<Timed> {
  const seen: Statement[] = [];
  const opened = await openStore(folder, { watch: (statement) => seen.push(statement) });
  if (!opened.ok) throw new Error(opened.why.say);
  const store = opened.value;
  await store.shelter();
  await store.upToDate();
  copyFileSync(join(folder, storeFile), join(copy, storeFile));
  const stick = yardstick(join(copy, storeFile));
  const write = writer(`cage-${size}-${from}`);
  const times: number[] = [];
  const raw: number[] = [];
  const counts: number[] = [];
  for (let turn = 0; turn < turns; turn += 1) {
    const drafts = Array.from({ length: size }, (_, i) => atTheCage(from + turn * size + i));
    const records = write(drafts);
    seen.length = 0;
    const start = performance.now();
    await store.append(records, at(today, 700));
    const ms = performance.now() - start;
    const statements = seen.slice();
    const stick_ms = stick.write(writes(statements));
    // The first turns read the animals in and warm the compiler up.
    if (turn < turns / 4) continue;
    times.push(ms);
    raw.push(stick_ms);
    counts.push(statements.length);
  }
  await store.upToDate();
  await check(store, size);
  stick.close();
  await store.close();
  return { append_ms: median(times), yardstick_ms: median(raw), statements: median(counts) };
}

/** What was appended is there, and one animal's rows are what its records say. */
async function check(store: SqliteStore, size: number): Promise<void> {
  const { seq, stale } = await store.head();
  const last = await store.read({ after: seq - size });
  if (last.length !== size || stale !== 0) throw new Error('not everything was kept');
  const id = 'a0' as AnimalId;
  const shelter = await store.shelter();
  const now = { shelter, ground: groundOf(shelter, null), today: today as never };
  const own = foldOwn(readOwn(id, await store.read({ subject: `animal:${id}` })), now);
  const rows = await store.rows('weighings', { animal: id });
  if (rows.length !== own.rows.weighings.size) throw new Error('rows differ');
}

/** Where the time of an append goes, milliseconds each; the animal is as long as those in care are. */
export async function profile(folder: string): Promise<readonly (readonly [string, number])[]> {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(opened.why.say);
  const store = opened.value;
  const shelter = await store.shelter();
  const now = { shelter, ground: groundOf(shelter, null), today: today as never };
  const kept = await store.read({ subject: 'animal:a1' });
  const [record] = writer('profile')([atTheCage(1)]) as [LogRecord];
  const id = 'a1' as AnimalId;
  const own = readOwn(id, kept);
  // What is known of it already, as when a record comes in.
  flagRowsOf(foldOwn(own, now), now, () => false);
  const withOneMore = () => ({ ...own, records: grown(own.records, [record], [...own.records, record]) });
  const parts: [string, () => unknown][] = [
    ['parse the record', () => parseRecord(record)],
    ['hash it', () => hash(noHash, { ...record, seq: 1, receivedAt: at(today) }, sha256)],
    ['write it as text and read it back', () => parseRecord(JSON.parse(canonical(record)))],
    [`one record more of the animal (${kept.length} records): fold and rows`, () => foldOwn(withOneMore(), now)],
    ['the same, and its flags', () => flagRowsOf(foldOwn(withOneMore(), now), now, () => false)],
    ['all of its records anew: fold and rows', () => foldOwn({ ...own, records: [...own.records] }, now)],
    [
      'the same, and its flags',
      () => flagRowsOf(foldOwn({ ...own, records: [...own.records] }, now), now, () => false),
    ],
    [`parse the animal (${kept.length} records), when it is not known`, () => readOwn(id, kept)],
  ];
  const times = parts.map(([name, work]): readonly [string, number] => {
    for (let n = 0; n < 200; n += 1) work();
    const all = Array.from({ length: 300 }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    });
    return [name, median(all)];
  });
  await store.close();
  return times;
}

/** Open the log and bring it to where the first append can be answered; for a process of its own. */
export async function startUp(folder: string): Promise<{ readonly ms: number; readonly rss: number }> {
  const start = performance.now();
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(opened.why.say);
  await opened.value.unreadable();
  const write = writer(`start-${process.pid}`);
  await opened.value.append(write([atTheCage(2)]), at(today, 710));
  const ms = performance.now() - start;
  await opened.value.close();
  return { ms, rss: process.memoryUsage().rss / 1_048_576 };
}

/** So many devices, a record a second each, for some seconds. Milliseconds that each waited. */
export async function devices(folder: string, count: number, seconds: number): Promise<readonly number[]> {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(opened.why.say);
  const store = opened.value;
  await store.unreadable();
  const waited: number[] = [];
  const begin = performance.now();
  await Promise.all(
    Array.from({ length: count }, async (_, device) => {
      const write = writer(`device-${device}-${process.pid}`);
      for (let second = 0; second < seconds; second += 1) {
        const due = begin + 1000 * second + (1000 * ((device * 37) % count)) / count;
        await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - performance.now())));
        const records = write([atTheCage(device + second * count)]);
        const start = performance.now();
        const [answer] = await store.append(records, at(today, 720));
        if (answer?.outcome !== 'stored') throw new Error('a record was not kept');
        if (second > 0) waited.push(performance.now() - start);
      }
    }),
  );
  await store.close();
  return waited;
}
