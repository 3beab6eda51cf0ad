import { createHash } from 'node:crypto';
import type { Kysely } from 'kysely';
import { derived } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { type LogRecord, parseRecord } from '../../log/record.js';
import { settled } from '../../log/settled-time.js';
import type { KeptEnvelope } from '../../log/store.js';
import { type UnreadRecord, unreadOf } from '../../log/unread.js';
import { type Ground, groundOf } from '../../log/views/ground.js';
import { foldShelter, noShelter, type Shelter } from '../../log/views/shelter.js';
import type { Folded, Rows } from '../subject.js';
import { asWritten } from './as-written.js';
import type { Database, HeadRow, RecordRow } from './tables.js';

/** Subjects of animals lie between these two, in the order of texts; all else is the shelter's. */
export const firstAnimal = 'animal:';
export const pastAnimals = 'animal;';

/** An animal as it was worked out last, with the rows that lie in the database for it. */
export interface Known extends Folded {
  readonly flags: Rows;
}

/** So many animals are kept beside the shelter; the one touched longest ago goes first. */
const mostKnown = 300;

/** What is remembered between appends: the shelter, and the animals touched last. True while `turn` is the log's own. */
export interface Memory {
  readonly turn: number;
  /** Place up to which records of the shelter have been read. */
  readonly seq: number;
  readonly records: readonly LogRecord[];
  readonly unread: readonly UnreadRecord[];
  readonly shelter: Shelter;
  readonly ground: Ground;
  /** Of the ground all but the lots, as a checksum: two programs on one log come to the same. */
  readonly groundKey: string;
  readonly known: ReadonlyMap<AnimalId, Known>;
  /** False when every animal's rows are known to stand for the day and the ground. */
  readonly stale: boolean;
}

const noGround = groundOf(noShelter, null);

export const nothingRead = (): Memory => ({
  turn: -1,
  seq: 0,
  records: [],
  unread: [],
  shelter: noShelter,
  ground: noGround,
  groundKey: keyOf(noGround),
  known: new Map(),
  stale: true,
});

/** Read on to where the log is, when another program has written since; or for the first time. */
export async function caughtUp(db: Kysely<Database>, before: Memory, head: HeadRow, turn: number): Promise<Memory> {
  if (before.turn === turn) return before;
  const rows = await shelterRows(db, before.seq);
  const seq = Math.max(head.seq, rows.at(-1)?.seq ?? 0);
  return { ...withShelterRecords(before, rows), turn, seq, known: new Map(), stale: true };
}

/**
 * Records that are not about one animal, in order of place. Their places are found by two walks along the index of subjects,
 * and the records read at those places: an index that is damaged must not put its own words into them.
 */
export async function shelterRows(
  db: Kysely<Database>,
  after: number,
  limit?: number,
  as: (row: RecordRow) => KeptEnvelope = asWritten,
): Promise<KeptEnvelope[]> {
  const places = db.selectFrom('records').select('seq').where('seq', '>', after);
  const parts = [places.where('subject', '<', firstAnimal), places.where('subject', '>=', pastAnimals)];
  const all: RecordRow[] = [];
  for (const part of parts)
    all.push(...(await db.selectFrom('records').selectAll().where('seq', 'in', part).execute()));
  const shelter = all.filter(({ subject }) => subject < firstAnimal || subject >= pastAnimals);
  return shelter
    .sort((a, b) => a.seq - b.seq)
    .slice(0, limit)
    .map(as);
}

/** With more records of the shelter as they lie in the log. */
export function withShelterRecords(before: Memory, kept: readonly KeptEnvelope[]): Memory {
  if (kept.length === 0) return before;
  const more: LogRecord[] = [];
  const damaged: UnreadRecord[] = [];
  for (const raw of kept) {
    const parsed = parseRecord(raw);
    if (parsed.ok) more.push(settled(parsed.value));
    else damaged.push(unreadOf(raw));
  }
  const records = [...before.records, ...more];
  const unread = [...before.unread, ...damaged];
  const shelter = foldShelter(records, unread);
  const ground = groundOf(shelter, before.ground);
  return { ...before, records, unread, shelter, ground, groundKey: keyOf(ground) };
}

const partKey = derived((part: object): string =>
  createHash('sha256')
    .update(JSON.stringify(part instanceof Map ? [...part] : part))
    .digest('hex'),
);

function keyOf(ground: Ground): string {
  const { lots: _judgedOneByOne, zone, ...parts } = ground;
  const keys = Object.values(parts).map((part) => (part === null ? '' : partKey(part)));
  return createHash('sha256')
    .update(JSON.stringify([zone, ...keys]))
    .digest('hex');
}

export function withKnown(before: ReadonlyMap<AnimalId, Known>, more: ReadonlyMap<AnimalId, Known>): Memory['known'] {
  // One map for all appends, as copying it would cost more than most of them; nobody else holds it.
  const known = before as Map<AnimalId, Known>;
  for (const [id, one] of more) {
    known.delete(id);
    known.set(id, one);
  }
  for (const id of known.keys()) {
    if (known.size <= mostKnown) break;
    known.delete(id);
  }
  return known;
}
