import { setImmediate } from 'node:timers/promises';
import type { AnimalId, RecordId } from '../core/ids.js';
import type { Raised } from '../log/flag.js';
import { clockFast } from '../log/flags/clock-flags.js';
import { answered, ownerOf } from '../log/flags/flags.js';
import { flagsOfNumber, flagsOfRun } from '../log/flags/shared-flags.js';
import { flagsOfChip, flagsOfDoses, flagsOfLot, flagsOfRound, flagsOfShelter } from '../log/flags/shelter-flags.js';
import { type ChainReport, chainStart, verifyChain } from '../log/hash.js';
import type { ReadTable } from '../log/read-rows.js';
import { type LogRecord, parseRecord } from '../log/record.js';
import type { Facts } from '../log/rows/facts.js';
import { noUse } from '../log/rows/lot-sum.js';
import { flagRow, lotRow, personRows, roundRow, sectionRows } from '../log/rows/rows.js';
import { type Adding, adding, byAnimal, type Carrier, noLines } from '../log/rows/sums.js';
import { settled } from '../log/settled-time.js';
import { type Head, type KeptEnvelope, type LogStore, StoreTrouble } from '../log/store.js';
import { type UnreadRecord, unreadOf } from '../log/unread.js';
import { groundOf } from '../log/views/ground.js';
import { foldShelter, noShelter, type Shelter } from '../log/views/shelter.js';
import type { Unreadable } from './projection.js';
import { type Row, rowText, tableNames } from './read-tables.js';
import { sha256 } from './sha256.js';
import { type Folded, flagRowsOf, foldOwn, keyedRows, type Now, ownRecords, ownTables, type Rows } from './subject.js';

/** How the rows that are there differ from the rows that should be there. */
export interface TableReport {
  readonly table: ReadTable;
  readonly rows: number;
  readonly missing: number;
  readonly extra: number;
  readonly different: number;
}

export interface StoreReport {
  /** Chain unbroken up to the head, every record readable, every read table as rebuilt, the file itself in order. */
  readonly whole: boolean;
  readonly head: Head;
  readonly records: number;
  readonly chain: ChainReport;
  /** The first of them; there may be more. */
  readonly unreadable: readonly Unreadable[];
  /** What the engine finds wrong with its own file and indexes, or said when a part could not be read at all. */
  readonly engine: readonly string[];
  readonly tables: readonly TableReport[];
}

const page = 500;
/** Records in one piece: a piece holds up whoever asks for something meanwhile. */
const piece = 100;
/** Records that cannot be read which are named, so that a long log of them does not fill the memory. */
const mostNamed = 1000;

/** Between two pieces: by default everything else that waits has its turn. */
type Pause = () => Promise<unknown>;

/** Records page by page, so that a long log never lies in memory as a whole; `trusted` as in `LogStore.read`. */
export async function* pages(
  store: LogStore,
  from = 0,
  limit = page,
  trusted = false,
): AsyncGenerator<readonly KeptEnvelope[]> {
  let after = from;
  for (;;) {
    const records = await store.read({ after, limit, trusted });
    const last = records.at(-1);
    if (last === undefined) return;
    yield records;
    after = last.seq;
  }
}

/** Every animal that records are about, or those of them that have not left. */
export async function* animalsOf(store: LogStore, inCare = false): AsyncGenerator<AnimalId> {
  for (let after = ''; ; ) {
    const ids = await store.animals({ after, limit: page, inCare });
    yield* ids;
    const last = ids.at(-1);
    if (last === undefined) return;
    after = last;
  }
}

/**
 * Follow the chain of the whole log, work the read tables out again from the records alone, for the day they stand
 * for, and compare: animal by animal, in memory that does not grow with the log, and with a `pause` after each, so that
 * nobody is held up. Changes nothing, but that stale rows are brought up first. While others append, the log may move
 * between two steps; it is then done again. What cannot be read at all is part of the report.
 */
export async function verifyStore(store: LogStore, pause: Pause = setImmediate): Promise<StoreReport> {
  for (let attempt = 1; ; attempt += 1) {
    const broken: string[] = [];
    await orSaid(() => store.upToDate(), undefined, broken);
    const before = await store.head();
    const report = await lookThrough(store, before, pause, broken);
    const after = await store.head();
    const still = before.seq === after.seq && before.rowsOn === after.rowsOn;
    if (report.whole || still || attempt === 5) return report;
  }
}

async function lookThrough(store: LogStore, head: Head, pause: Pause, broken: string[]): Promise<StoreReport> {
  const log = await followChain(store, head, pause, broken);
  const tables = await orSaid(() => compareRows(store, head, pause), [], broken);
  const sound = tables.every((table) => table.missing + table.extra + table.different === 0);
  const engine = [...new Set([...(await orSaid(() => store.faults(), [], broken)), ...broken])];
  const whole = log.chain.whole && log.unreadable.length === 0 && sound && engine.length === 0;
  return { whole, head, ...log, engine, tables };
}

/** What a part of the store gives, or, when the engine finds it damaged, that it did. Other trouble goes on to the caller. */
async function orSaid<T>(work: () => Promise<T>, otherwise: T, broken: string[]): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof StoreTrouble) || error.code !== 'damaged') throw error;
    broken.push(String(error.why.with?.detail ?? error.why.say));
    return otherwise;
  }
}

async function followChain(
  store: LogStore,
  head: Head,
  pause: Pause,
  broken: string[],
): Promise<Pick<StoreReport, 'chain' | 'records' | 'unreadable'>> {
  let chain: ChainReport = { whole: true, end: chainStart };
  let records = 0;
  const unreadable: { seq: number; id: RecordId; why: Unreadable['why'] }[] = [];
  const walk = async (): Promise<void> => {
    for await (const all of pages(store, 0, piece)) {
      // What has come in since is looked at the next time.
      const some = all.filter(({ seq }) => seq <= head.seq);
      records += some.length;
      if (chain.whole) chain = verifyChain(some, chain.end, sha256);
      for (const record of some) {
        const parsed = parseRecord(record);
        if (parsed.ok || unreadable.length === mostNamed) continue;
        unreadable.push({ seq: record.seq, id: record.id, why: parsed.why });
      }
      if (some.length < all.length) return;
      await pause();
    }
  };
  await orSaid(walk, undefined, broken);
  if (chain.whole && (chain.end.seq !== head.seq || chain.end.hash !== head.hash)) {
    chain = { whole: false, brokenAt: Math.min(chain.end.seq, head.seq) + 1, fault: 'place-missing' };
  }
  return { chain, records, unreadable };
}

/** Compares rows by and by, and counts what was found. */
interface Comparing {
  readonly compare: (table: ReadTable, should: Rows, there: Rows) => void;
  /** Rows that nothing should have put there are those that are counted and were never met. */
  readonly report: (counts: Readonly<Record<ReadTable, number>>) => TableReport[];
}

function startComparing(): Comparing {
  const found = new Map(tableNames.map((table) => [table, { seen: 0, missing: 0, different: 0 }]));
  return {
    compare: (table, should, there) => {
      const so = found.get(table) ?? { seen: 0, missing: 0, different: 0 };
      for (const [key, row] of should) {
        const other = there.get(key);
        if (other === undefined) so.missing += 1;
        else so.seen += 1;
        if (other !== undefined && rowText(table, other) !== rowText(table, row)) so.different += 1;
      }
    },
    report: (counts) =>
      [...found].map(([table, { seen, missing, different }]) => {
        const extra = Math.max(0, counts[table] - seen);
        return { table, rows: counts[table], missing, extra, different };
      }),
  };
}

async function compareRows(store: LogStore, head: Head, pause: Pause): Promise<readonly TableReport[]> {
  const comparing = startComparing();
  if (head.rowsOn === null) return comparing.report(await store.counts());
  const shelter = shelterOf(await store.read({ about: 'shelter', trusted: true }));
  const now: Now = { shelter, ground: groundOf(shelter, null), today: head.rowsOn };
  const all = adding(shelter);
  for await (const id of animalsOf(store)) {
    await compareAnimal(store, foldOwn(await ownRecords(store, id), now), now, all, comparing);
    await pause();
  }
  await compareShelter(store, now, all, comparing);
  return comparing.report(await store.counts());
}

/** The shelter from its records alone, whatever the store remembers of it. */
function shelterOf(kept: readonly KeptEnvelope[]): Shelter {
  const records: LogRecord[] = [];
  const unread: UnreadRecord[] = [];
  for (const raw of kept) {
    const parsed = parseRecord(raw);
    if (parsed.ok) records.push(settled(parsed.value));
    else unread.push(unreadOf(raw));
  }
  return records.length + unread.length === 0 ? noShelter : foldShelter(records, unread);
}

async function compareAnimal(store: LogStore, own: Folded, now: Now, all: Adding, comparing: Comparing): Promise<void> {
  const { id } = own;
  for (const table of ownTables) {
    comparing.compare(table, own.rows[table], keyedRows(table, await store.rows(table, { animal: id })));
  }
  const owner = ownerOf.animal(id);
  const carried = await carriedBesides(store, own);
  const flags = flagRowsOf(own, now, (number) => carried.has(number));
  comparing.compare('flags', flags, keyedRows('flags', await store.rows('flags', { owner })));
  const facts = Object.fromEntries(ownTables.map((table) => [table, [...own.rows[table].values()]]));
  // Chips, names of tests and numbers are not added up in memory, as there may be very many: whoever is the first with one compares for all.
  all.add({ id, name: '', facts: { ...(facts as unknown as Facts), run_holders: [], number_holders: [] }, chips: [] });
  for (const row of own.rows.chips.values()) await compareChip(store, id, String(row.code), now, comparing);
  for (const row of own.rows.run_holders.values()) await compareRun(store, id, String(row.run), now, comparing);
  for (const row of own.rows.number_holders.values()) {
    await compareNumber(store, id, String(row.number), now, comparing);
  }
}

/** Which of the numbers that were read in an animal others have on record. */
async function carriedBesides(store: LogStore, { id, rows }: Folded): Promise<ReadonlySet<string>> {
  const carried = new Set<string>();
  for (const row of rows.chip_readings.values()) {
    const number = String(row.number);
    const carriers = row.was === 'read' ? await store.rows('chips', { number }) : [];
    if (carriers.some(({ animal }) => animal !== id)) carried.add(number);
  }
  return carried;
}

async function compareChip(
  store: LogStore,
  id: AnimalId,
  code: string,
  { shelter }: Now,
  comparing: Comparing,
): Promise<void> {
  const chips = await store.rows('chips', { code });
  if (chips.length < 2 || chips.some(({ animal }) => animal < id)) return;
  const carriers: Carrier[] = [];
  for (const { animal, since } of chips) {
    const [row] = await store.rows('animals', { animal });
    if (row !== undefined) carriers.push({ animal: animal as AnimalId, name: row.name, since });
  }
  carriers.sort((a, b) => (a.animal < b.animal ? -1 : 1));
  await compareFlags(store, ownerOf.chip(code), flagsOfChip(code, carriers), shelter, comparing);
}

async function compareRun(
  store: LogStore,
  id: AnimalId,
  run: string,
  { shelter }: Now,
  comparing: Comparing,
): Promise<void> {
  const holders = [...(await store.rows('run_holders', { run }))].sort(byAnimal);
  if (holders.length < 2 || holders[0]?.animal !== id) return;
  await compareFlags(store, ownerOf.run(run), flagsOfRun(holders), shelter, comparing);
}

async function compareNumber(
  store: LogStore,
  id: AnimalId,
  number: string,
  { shelter }: Now,
  comparing: Comparing,
): Promise<void> {
  const holders = [...(await store.rows('number_holders', { number }))].sort(byAnimal);
  if (holders.length < 2 || holders[0]?.animal !== id) return;
  await compareFlags(store, ownerOf.number(number), flagsOfNumber(holders), shelter, comparing);
}

async function compareShelter(
  store: LogStore,
  { shelter, today }: Now,
  { sums }: Adding,
  comparing: Comparing,
): Promise<void> {
  const should = {
    sections: sectionRows(shelter),
    people: personRows(shelter),
    lots: [...shelter.lots.values()].map((lot) => lotRow(lot, sums.lots.get(lot.id) ?? noUse)),
    rounds: [...shelter.rounds.values()].map((round) => roundRow(round, sums.rounds.get(round.id) ?? noLines)),
  };
  for (const table of ['sections', 'people', 'lots', 'rounds'] as const) {
    comparing.compare(table, keyedRows(table, should[table]), keyedRows(table, await store.rows(table)));
  }
  const owned = new Map<string, readonly Raised[]>();
  for (const lot of shelter.lots.values()) {
    owned.set(ownerOf.lot(lot.id), flagsOfLot(lot, sums.lots.get(lot.id) ?? noUse, today));
  }
  for (const round of shelter.rounds.values()) {
    owned.set(ownerOf.round(round.id), flagsOfRound(round, shelter, today));
    owned.set(ownerOf.doses(round.id), flagsOfDoses(round, sums.rounds.get(round.id) ?? noLines));
  }
  for (const row of sums.clocks.values()) owned.set(ownerOf.clock(row), [clockFast(row)]);
  owned.set(ownerOf.shelter, flagsOfShelter(shelter));
  for (const [owner, raised] of owned) await compareFlags(store, owner, raised, shelter, comparing);
}

async function compareFlags(
  store: LogStore,
  owner: string,
  raised: readonly Raised[],
  { answers }: Shelter,
  comparing: Comparing,
): Promise<void> {
  const should = answered(owner, raised, answers).map(({ flag }): Row => ({ ...flagRow(owner, flag) }));
  comparing.compare('flags', keyedRows('flags', should), keyedRows('flags', await store.rows('flags', { owner })));
}
