import type { Transaction } from 'kysely';
import type { CalendarDate } from '../../core/calendar.js';
import type { AnimalId } from '../../core/ids.js';
import type { Raised } from '../../log/flag.js';
import { clockFast } from '../../log/flags/clock-flags.js';
import { answered, ownerOf } from '../../log/flags/flags.js';
import { flagsOfNumber, flagsOfRun } from '../../log/flags/shared-flags.js';
import { flagsOfChip, flagsOfDoses, flagsOfLot, flagsOfRound, flagsOfShelter } from '../../log/flags/shelter-flags.js';
import type { ReadTable } from '../../log/read-rows.js';
import type { LogRecord } from '../../log/record.js';
import { flagRow, lotRow, personRows, roundRow, sectionRows } from '../../log/rows/rows.js';
import { noLines } from '../../log/rows/sums.js';
import type { KeptEnvelope } from '../../log/store.js';
import { codesInBoxes } from '../../log/views/chips/chip-pack.js';
import type { Shelter } from '../../log/views/shelter.js';
import type { Row } from '../read-tables.js';
import { type Folded, flagRowsOf, foldOwn, keyedRows, type OwnRows, ownTables, readOwn } from '../subject.js';
import { groupedBy, idOf, lastKnown, type Old } from './animals.js';
import { type Change, changeBetween, putFolds, rowsWith, writeChanges } from './read-tables.js';
import { firstAnimal, type Known, type Memory } from './shelter-memory.js';
import { carriersOf, firstFast, holdersOf, lotSum, lotsNamed, roundSums, underNumber } from './sums.js';
import type { Database, FoldRow } from './tables.js';

type Trx = Transaction<Database>;

/** What of the sums over all animals has changed, and with it the rows and flags that hang on them. */
interface Touched {
  readonly lots: Set<string>;
  readonly rounds: Set<string>;
  readonly codes: Set<string>;
  /** Numbers that came on an animal's record or went from it. */
  readonly numbers: Set<string>;
  readonly clocks: Map<string, { readonly device: string; readonly on: string }>;
  /** Names of tests. */
  readonly runs: Set<string>;
  /** Numbers of the shelter. */
  readonly labels: Set<string>;
}

const nothingTouched = (): Touched => ({
  lots: new Set(),
  rounds: new Set(),
  codes: new Set(),
  numbers: new Set(),
  clocks: new Map(),
  runs: new Set(),
  labels: new Set(),
});

/** What has come of some work: to be remembered once it is committed. */
export interface Done {
  readonly memory: Memory;
  readonly known: ReadonlyMap<AnimalId, Known>;
}

/**
 * Bring the read tables from `before` to `now`: the rows of the animals named, and of what hangs on them; of the shelter,
 * when it is another. Animals that a change of the shelter concerns are marked and not worked out here.
 */
export async function bringUp(
  trx: Trx,
  before: Memory,
  now: Memory,
  today: CalendarDate,
  was: CalendarDate | null,
  fresh: readonly KeptEnvelope[],
  named: readonly AnimalId[] = [],
): Promise<Done> {
  const ids = new Set(named);
  const more = new Map<AnimalId, LogRecord[]>();
  for (const record of fresh) {
    if (!record.subject.startsWith(firstAnimal)) continue;
    const id = idOf(record.subject);
    ids.add(id);
    const own = more.get(id) ?? [];
    own.push(...readOwn(id, [record]).records);
    more.set(id, own);
  }
  const touched = nothingTouched();
  const other = before.shelter !== now.shelter;
  if (other) {
    for (const id of await shelterChanged(trx, before.shelter, now.shelter, fresh, touched)) ids.add(id);
  }
  const marked = other ? await markStale(trx, before, now, touched) : false;

  const animals = await bringAnimals(trx, now, today, ids, more, touched);
  const lots = was === today ? touched.lots : new Set([...touched.lots, ...now.shelter.lots.keys()]);
  const everyRound = was !== today || before.shelter.sections !== now.shelter.sections;
  const rounds = everyRound ? new Set([...touched.rounds, ...now.shelter.rounds.keys()]) : touched.rounds;
  await bringSums(trx, now.shelter, today, { ...touched, lots }, rounds, other);
  const stale = before.stale || marked || was !== today || before.groundKey !== now.groundKey;
  return { memory: { ...now, stale }, known: animals };
}

/** Write what is the shelter's own; gives the animals whose flags have another answer now. */
async function shelterChanged(
  trx: Trx,
  before: Shelter,
  now: Shelter,
  fresh: readonly KeptEnvelope[],
  touched: Touched,
): Promise<AnimalId[]> {
  await writeChanges(trx, [
    changeBetween('sections', keyedRows('sections', sectionRows(before)), keyedRows('sections', sectionRows(now))),
    changeBetween('people', keyedRows('people', personRows(before)), keyedRows('people', personRows(now))),
  ]);
  for (const { subject } of fresh) {
    const id = subject.slice(subject.indexOf(':') + 1);
    if (subject.startsWith('lot:')) touched.lots.add(id);
    if (subject.startsWith('round:')) touched.rounds.add(id);
  }
  // Syringes made ready are a lot of their own, and are taken from another.
  for (const { id, madeReady } of now.lots.values()) {
    if (madeReady !== (before.lots.get(id)?.madeReady ?? 0)) touched.lots.add(id);
  }
  for (const row of [...before.fastClocks, ...now.fastClocks]) touched.clocks.set(ownerOf.clock(row), row);
  // An answer counts by who gave it, so that it may change with a person, too.
  const asked = fresh.some(({ subject }) => subject.startsWith('flag:') || subject.startsWith('person:'));
  if (!asked) return [];
  const keys = [...new Set([...before.answers.keys(), ...now.answers.keys()])].filter(
    (key) => JSON.stringify(before.answers.get(key)) !== JSON.stringify(now.answers.get(key)),
  );
  const owners = (await rowsWith(trx, 'flags', 'key', keys)).map((row) => String(row.owner));
  for (const owner of owners) {
    const id = owner.slice(owner.indexOf(':') + 1);
    if (owner.startsWith('lot:')) touched.lots.add(id);
    if (owner.startsWith('round:') || owner.startsWith('doses:')) touched.rounds.add(id);
    if (owner.startsWith('chip:')) touched.codes.add(id);
    if (owner.startsWith('run:')) touched.runs.add(id);
    if (owner.startsWith('number:')) touched.labels.add(id);
    if (owner.startsWith('clock:')) {
      const colon = id.indexOf(':');
      touched.clocks.set(owner, { on: id.slice(0, colon), device: id.slice(colon + 1) });
    }
  }
  return owners.filter((owner) => owner.startsWith(firstAnimal)).map(idOf);
}

/** Animals that are judged otherwise now because of a lot, a box of chips or a round; true when there may be some. */
async function markStale(trx: Trx, before: Memory, now: Memory, touched: Touched): Promise<boolean> {
  const lots = [...touched.lots].filter(
    (id) =>
      JSON.stringify(lotsNamed(before.shelter, [id]).map(judged)) !==
      JSON.stringify(lotsNamed(now.shelter, [id]).map(judged)),
  );
  const plans = [...touched.rounds].flatMap((id) => {
    const [one, other] = [before, now].map(({ shelter }) => shelter.rounds.get(id as never)?.plan);
    return one === other ? [] : [...(one?.lines ?? []), ...(other?.lines ?? [])].map(({ animal }) => animal);
  });
  const mark = trx.updateTable('animal_folds').set({ ground: '' });
  if (lots.length > 0) {
    await mark
      .where('animal', 'in', (eb) => eb.selectFrom('lot_uses').select('animal').where('lot', 'in', lots))
      .execute();
  }
  const animals = [...new Set(plans)];
  for (let from = 0; from < animals.length; from += 500) {
    await mark.where('animal', 'in', animals.slice(from, from + 500)).execute();
  }
  const boxes = [before, now].map(({ ground }) => codesInBoxes(ground.lots));
  const boxed = boxes.map((codes) => JSON.stringify([...codes].sort()));
  if (boxed[0] !== boxed[1]) {
    // Chips that were implanted and stand on no box's list are flagged, once there are boxes.
    await mark
      .where('animal', 'in', (eb) => eb.selectFrom('chip_readings').select('animal').where('was', '=', 'implanted'))
      .execute();
  }
  return lots.length > 0 || animals.length > 0 || boxed[0] !== boxed[1];
}

const judged = ({ id, of, lotText, expires, withdrawn }: ReturnType<typeof lotsNamed>[number]) => [
  id,
  of,
  lotText,
  expires,
  withdrawn,
];

/** Fold animals and write what is other than it was; then the flags of them, and of those that a chip ties to them. */
async function bringAnimals(
  trx: Trx,
  now: Memory,
  today: CalendarDate,
  ids: ReadonlySet<AnimalId>,
  more: ReadonlyMap<AnimalId, readonly LogRecord[]>,
  touched: Touched,
): Promise<ReadonlyMap<AnimalId, Known>> {
  if (ids.size === 0) return new Map();
  const whole = { shelter: now.shelter, ground: now.ground, today };
  const all: { readonly old: Old; readonly own: Folded }[] = [];
  const met = new Set<AnimalId>();
  for (let next = [...ids]; next.length > 0; next = await tiedByChip(trx, touched.numbers, met)) {
    const olds = await lastKnown(trx, now, next, more);
    const folded = olds.map((old) => ({ old, own: foldOwn(old, whole) }));
    const changes = ownTables.flatMap((table) =>
      together(
        table,
        folded.map(({ old, own }) => changeBetween(table, old.rows[table], own.rows[table])),
      ),
    );
    for (const change of changes) note(change, touched);
    for (const { old, own } of folded) noteName(old.rows, own.rows, touched);
    await writeChanges(trx, changes);
    await writeFolds(
      trx,
      folded.map(({ own }) => own),
      now.groundKey,
      today,
    );
    all.push(...folded);
    for (const id of next) met.add(id);
  }

  const isCarried = await carriedBy(
    trx,
    all.flatMap(({ own }) => numbersRead(own.rows)),
  );
  const known = new Map<AnimalId, Known>();
  const flags: Change[] = [];
  for (const { old, own } of all) {
    const rows = flagRowsOf(own, whole, (number) => (isCarried.get(number) ?? []).some((one) => one !== own.id));
    flags.push(changeBetween('flags', old.flags, rows));
    known.set(own.id, { ...own, flags: rows });
  }
  await writeChanges(trx, together('flags', flags));
  return known;
}

/** The changes of several animals to one table as one; none where nothing changed. */
function together(table: ReadTable, all: readonly Change[]): Change[] {
  const some = all.filter(({ put, remove }) => put.length + remove.length > 0);
  if (some.length === 0) return [];
  return [{ table, put: some.flatMap(({ put }) => put), remove: some.flatMap(({ remove }) => remove) }];
}

function note({ table, put, remove }: Change, touched: Touched): void {
  for (const row of [...put, ...remove]) {
    if (table === 'lot_uses') touched.lots.add(String(row.lot));
    if (table === 'round_animals') touched.rounds.add(String(row.round));
    if (table === 'run_holders') touched.runs.add(String(row.run));
    if (table === 'number_holders') touched.labels.add(String(row.number));
    if (table === 'chips') {
      touched.codes.add(String(row.code));
      touched.numbers.add(String(row.number));
    }
    if (table === 'fast_clocks') {
      const key = { device: String(row.device), on: String(row.on) };
      touched.clocks.set(ownerOf.clock(key), key);
    }
  }
}

/** A shared chip is flagged with the names of those who have it. */
function noteName(old: OwnRows, own: OwnRows, touched: Touched): void {
  const nameIn = (rows: OwnRows) => [...rows.animals.values()][0]?.name;
  if (nameIn(old) === nameIn(own)) return;
  for (const row of own.chips.values()) touched.codes.add(String(row.code));
}

const numbersRead = ({ chip_readings }: OwnRows): string[] =>
  [...chip_readings.values()].filter((row) => row.was === 'read').map((row) => String(row.number));

/** Animals in which a number was read that has come on another animal's record, or has gone from it. */
async function tiedByChip(trx: Trx, numbers: ReadonlySet<string>, besides: ReadonlySet<AnimalId>): Promise<AnimalId[]> {
  const rows = await rowsWith(trx, 'chip_readings', 'number', [...numbers]);
  const ids = rows.filter((row) => row.was === 'read').map((row) => String(row.animal) as AnimalId);
  return [...new Set(ids)].filter((id) => !besides.has(id));
}

async function carriedBy(trx: Trx, numbers: readonly string[]): Promise<ReadonlyMap<string, readonly string[]>> {
  const groups = groupedBy('number', await rowsWith(trx, 'chips', 'number', [...new Set(numbers)]));
  return new Map([...groups].map(([number, rows]) => [number, rows.map((row) => String(row.animal))]));
}

async function writeFolds(trx: Trx, own: readonly Folded[], ground: string, on: string): Promise<void> {
  const rows = own.map(
    ({ id, animal, atRest, unread }): FoldRow => ({
      animal: id,
      in_care: animal?.left == null ? 1 : 0,
      at_rest: atRest ? 1 : 0,
      unread,
      rows_on: on,
      ground,
    }),
  );
  await putFolds(trx, rows);
}

/** Rows and flags of lots, rounds, chips and clocks whose sums, or whose own records, are other than they were. */
async function bringSums(
  trx: Trx,
  shelter: Shelter,
  today: CalendarDate,
  touched: Touched,
  rounds: ReadonlySet<string>,
  other: boolean,
): Promise<void> {
  const owned = new Map<string, readonly Raised[]>();
  const lots: Row[] = [];
  for (const lot of lotsNamed(shelter, touched.lots)) {
    const sum = await lotSum(trx, lot);
    lots.push({ ...lotRow(lot, sum) });
    owned.set(ownerOf.lot(lot.id), flagsOfLot(lot, sum, today));
  }
  const sums = await roundSums(trx, [...rounds]);
  const roundRows: Row[] = [];
  for (const id of rounds) {
    const facts = shelter.rounds.get(id as never);
    if (facts === undefined) continue;
    const sum = sums.get(facts.id) ?? noLines;
    roundRows.push({ ...roundRow(facts, sum) });
    owned.set(ownerOf.round(id), flagsOfRound(facts, shelter, today));
    owned.set(ownerOf.doses(id), flagsOfDoses(facts, sum));
  }
  // What is no lot or round any more, because the record of it was taken back, has neither rows nor flags.
  const gone = {
    lots: [...touched.lots].filter((id) => !owned.has(ownerOf.lot(id))),
    rounds: [...rounds].filter((id) => !owned.has(ownerOf.round(id))),
  };
  for (const id of gone.lots) owned.set(ownerOf.lot(id), []);
  for (const id of gone.rounds) owned.set(ownerOf.round(id), []).set(ownerOf.doses(id), []);
  for (const code of touched.codes) owned.set(ownerOf.chip(code), flagsOfChip(code, await carriersOf(trx, code)));
  for (const run of touched.runs) owned.set(ownerOf.run(run), flagsOfRun(await holdersOf(trx, run)));
  for (const number of touched.labels) {
    owned.set(ownerOf.number(number), flagsOfNumber(await underNumber(trx, number)));
  }
  for (const [owner, key] of touched.clocks) {
    const first = await firstFast(trx, shelter, key);
    owned.set(owner, first === null ? [] : [clockFast(first)]);
  }
  if (other) owned.set(ownerOf.shelter, flagsOfShelter(shelter));
  if (owned.size === 0) return;

  const flags = [...owned].flatMap(([owner, raised]) => answered(owner, raised, shelter.answers));
  const rows = flags.map(({ owner, flag }) => flagRow(owner, flag));
  const there = await rowsWith(trx, 'flags', 'owner', [...owned.keys()]);
  await writeChanges(trx, [
    { table: 'lots', put: lots, remove: gone.lots.map((lot) => ({ lot })) },
    { table: 'rounds', put: roundRows, remove: gone.rounds.map((round) => ({ round })) },
    changeBetween('flags', keyedRows('flags', there), keyedRows('flags', rows)),
  ]);
}
