import type { Client } from '../../api/client.js';
import { AnimalId } from '../../core/ids.js';
import type { Kind } from '../../log/kinds/index.js';
import { isAnimalRecord, type LogRecord, parseRecord, subjectOf } from '../../log/record.js';
import { type Db, damagedAt, readCursor, readMeta, type Unread, writeMeta } from '../db.js';
import { fetchHistory, type History, settleSent } from './history.js';
import { keep } from './keep.js';
import type { Reach } from './reach.js';

/** What a pull works with besides the database and the line. */
export interface Pulling {
  readonly device: string;
  /** Where the server's log ends now. */
  readonly head: number;
  readonly take: (records: readonly LogRecord[]) => void;
  /** Whether an animal whose history has just been taken is here: it is kept up to date from then on. */
  readonly isHere: (animal: AnimalId) => boolean;
  /** Whether somebody has an animal that left open. */
  readonly isOpen: (animal: AnimalId) => boolean;
  readonly progress?: (have: number, all: number) => void;
}

/**
 * Read what the server has for us after our place in its log, page by page. Records and the new place are written
 * together, so that a page is never half taken. Places that are left out are records of animals that left. An animal
 * whose record comes without its history being here has all of it fetched first.
 */
export async function pull(db: Db, client: Client, pulling: Pulling): Promise<Reach> {
  const { device, head: headNow, take, progress } = pulling;
  const whole = new Set<string>();
  const first = (await readMeta(db, 'whole')) !== true;
  if (first && (await readMeta(db, 'since')) === undefined) await writeMeta(db, 'since', headNow);
  for (;;) {
    const { place, hash } = await readCursor(db);
    const since = await readMeta(db, 'since');
    const from = typeof since === 'number' ? { since } : {};
    const answer = await client.records({ after: place, ...(place > 0 ? { hash } : {}), ...from, limit: 500 });
    if (!answer.ok) return { reached: false, code: answer.code };
    const { records, damaged = [], next, hash: hashThere, left, head } = answer.value;
    const read: LogRecord[] = [];
    const unread: Unread[] = [];
    for (const raw of records) {
      const parsed = parseRecord(raw);
      if (parsed.ok) read.push(parsed.value);
      else unread.push({ id: raw.id, raw });
    }
    const gone = new Set<string>(left.map((animal) => `animal:${animal}`));
    const lacking = await withoutHistory(db, read, whole);
    for (const subject of lacking) {
      const animal = animalIn(subject);
      // Of one that left nothing is needed, unless something of it is here: then it has to be seen to go.
      if (gone.has(subject) && !pulling.isOpen(animal) && !(await isPartlyHere(db, subject))) continue;
      const fetched = await takeHistory(db, client, animal, pulling);
      if (!fetched.reached) return fetched;
    }
    const ours = read.filter(({ subject }) => !lacking.has(subject));
    await db.transaction('rw', db.records, db.outbox, db.unread, db.meta, async () => {
      await keep(db, ours);
      await db.unread.bulkPut(unread);
      await db.unread.bulkDelete(read.map(({ seq }) => damagedAt(seq ?? 0)));
      await db.unread.bulkPut(damaged.map((raw) => ({ id: damagedAt(raw.seq), raw })));
      await writeMeta(db, 'cursor', { place: next, hash: hashThere });
      await markOld(db, read, next - place > records.length + damaged.length);
      await settleSent(
        db,
        records.map((one) => one.id),
      );
      // The server may have written for this device (set-up): our own count goes on after it.
      const own = Math.max(0, ...read.filter((one) => one.device === device).map((one) => one.deviceSeq));
      const seq = await readMeta(db, 'deviceSeq');
      if (own > (typeof seq === 'number' ? seq : 0)) await writeMeta(db, 'deviceSeq', own);
    });
    if (ours.length > 0) take(ours);
    progress?.(next, head.seq);
    if (next <= place || next >= head.seq) break;
  }
  const settled = await settleElsewhere(db, client, pulling);
  if (!settled.reached) return settled;
  // Kept by a server that has lost it since: it goes again.
  await db.outbox.filter((row) => row.state === 'sent').modify({ state: 'waiting' });
  await db.meta.delete('since');
  await writeMeta(db, 'whole', true);
  return { reached: true };
}

/** Kinds that change nothing in the index of all chips, nor in what is left of a lot: most records are of these. */
const tellsNothing: readonly Kind[] = ['animal-weighed', 'animal-identified', 'animal-moved', 'observation-noted'];

/** What else the server knows may be another now: asked for once the pages are through. */
async function markOld(db: Db, read: readonly LogRecord[], leftOut: boolean): Promise<void> {
  if (!leftOut && read.every(({ kind, corrects }) => tellsNothing.includes(kind) && corrects === undefined)) return;
  await writeMeta(db, 'chipsOld', true);
  await writeMeta(db, 'lotsOld', true);
}

const animalIn = (subject: string): AnimalId => AnimalId.parse(subjectOf({ subject }).id);

/**
 * Of the animals that a page speaks of, the subjects of those whose history is not here: set aside, or never taken in as
 * far as this device knows. `whole` remembers from page to page whose history is.
 */
async function withoutHistory(db: Db, read: readonly LogRecord[], whole: Set<string>): Promise<Set<string>> {
  const asked = new Set(read.filter(isAnimalRecord).map(({ subject }) => subject));
  const aside = new Set(await db.aside.toCollection().primaryKeys());
  for (const { kind, subject } of read) if (kind === 'animal-taken-in' && !aside.has(subject)) whole.add(subject);
  const open = [...asked].filter((subject) => !whole.has(subject) && !aside.has(subject));
  const takenIn = db.records.where('subject').anyOf(open);
  await takenIn.each(({ kind, subject }) => {
    if (kind === 'animal-taken-in') whole.add(subject);
  });
  return new Set([...asked].filter((subject) => !whole.has(subject)));
}

const isPartlyHere = async (db: Db, subject: string): Promise<boolean> =>
  (await db.aside.get(subject)) === undefined && (await db.records.where('subject').equals(subject).count()) > 0;

/** Fetch an animal's history and take it in; one that is here is kept up to date from then on. */
export async function takeHistory(
  db: Db,
  client: Client,
  animal: AnimalId,
  { take, isHere }: Pick<Pulling, 'take' | 'isHere'>,
): Promise<History> {
  const fetched = await fetchHistory(db, client, animal);
  if (!fetched.reached) return fetched;
  take(fetched.records ?? []);
  if (isHere(animal)) await db.aside.delete(`animal:${animal}`);
  return fetched;
}

/**
 * What was written here about an animal that has left since, or is set aside, does not come back with the pages: its
 * history is fetched, by which the device also learns that it left.
 */
async function settleElsewhere(db: Db, client: Client, pulling: Pulling): Promise<Reach> {
  const sent = await db.outbox.filter((row) => row.state === 'sent').primaryKeys();
  const records = (await db.records.bulkGet(sent)).filter((record) => record !== undefined);
  for (const subject of new Set(records.filter(isAnimalRecord).map((record) => record.subject))) {
    const fetched = await takeHistory(db, client, animalIn(subject), pulling);
    if (!fetched.reached) return fetched;
  }
  return { reached: true };
}

/** Try again what an older version of the program could not read. */
export async function rereadUnread(db: Db, take: (records: readonly LogRecord[]) => void): Promise<void> {
  const rows = await db.unread.toArray();
  const read = rows.flatMap((row) => {
    const parsed = parseRecord(row.raw);
    return parsed.ok ? [parsed.value] : [];
  });
  if (read.length === 0) return;
  await db.transaction('rw', db.records, db.outbox, db.unread, async () => {
    await keep(db, read);
    await db.unread.bulkDelete(read.map((record) => record.id));
  });
  take(read);
}
