import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { no, type Outcome, ok } from '../../../core/said.js';
import { hash, noHash } from '../../../log/hash.js';
import type { KeptEnvelope } from '../../../log/store.js';
import { blobsFolder, folderBlobs } from '../../blobs/folder.js';
import { sha256 } from '../../sha256.js';
import { fromRow, type RecordRow } from '../../sql/tables.js';
import { fillStore } from '../fill.js';
import { openStore, storeFile } from '../open.js';
import { openImages } from './images.js';
import { type SavedPictures, savePictures } from './pictures.js';
import { type Place, type Row, rowAt, rowsIn } from './rows.js';
import { type Proven, sortOut } from './sort-out.js';
import { stillKnown } from './still-known.js';

/** What was saved of a store, and what was not. */
export interface Salvaged {
  readonly records: number;
  /** Places that the damaged log is known to have had. */
  readonly places: number;
  /** False when nobody can tell whether there were more. */
  readonly endKnown: boolean;
  /** Runs of places that nothing could be read of, with what they were about where that is known. */
  readonly missing: readonly { readonly from: number; readonly to: number; readonly subjects: readonly string[] }[];
  readonly pictures: SavedPictures;
  /** Devices of whose own numbering something is not there: they may still hold it. */
  readonly devices: readonly { readonly device: string; readonly numbers: readonly (readonly [number, number])[] }[];
}

/**
 * Save what can be read of a damaged store into a new one, in `to`, which must not hold records yet. The damaged one is only
 * read. Every record whose hash holds is saved, with its time of arrival, in order; where none is missing before it, with
 * its place and hash. After a missing one the new log is another history: devices find the last place in common and
 * send again all that they hold beyond it.
 *
 * What lies beside the log has its own step each, after the records, which name it and are whole without it: the pictures.
 *
 * Says no, and leaves nothing behind, when there is nothing to be saved or it cannot be written.
 */
export async function salvage(from: string, to: string, now: string): Promise<Outcome<Salvaged>> {
  const file = join(from, storeFile);
  const target = join(to, storeFile);
  if (!existsSync(file)) return no('server.salvage.nothing-there', { file });
  if (existsSync(target)) return no('server.salvage.target-taken', { file: target });
  const { images, close } = openImages(file);
  try {
    const found: Found[] = [];
    for (const image of images) {
      for (const [place, row] of rowsIn(image, columns.length)) found.push(...provenBy(place, row));
    }
    if (found.length === 0) return no('server.salvage.nothing-read', { file });
    // Makes the folder, and says no where records cannot be kept.
    const begun = await openStore(to);
    if (!begun.ok) return begun;
    await begun.value.close();
    const known = stillKnown(file, to);
    const places = Math.max(known.head?.seq ?? 0, ...found.map(({ seq }) => seq), ...known.subjects.keys());
    const sorted = sortOut(found, places, known.head);
    const written = await fillStore(to, chained(sorted.records), now);
    if (!written.ok) {
      for (const end of ['', '-wal', '-shm']) rmSync(target + end, { force: true });
      return written;
    }
    const pictures = await savePictures(folderBlobs(join(from, blobsFolder)), folderBlobs(join(to, blobsFolder)));
    return ok({
      pictures,
      records: sorted.records.length,
      places,
      endKnown: known.head !== null,
      missing: runsOf(sorted.missing).map(([first, last]) => ({
        from: first,
        to: last,
        subjects: subjectsOf(first, last, known.subjects),
      })),
      devices: sorted.missing.length === 0 ? [] : holesOf(sorted.records),
    });
  } finally {
    close();
  }
}

/** Columns of a record in the order in which they lie there: the order in which the steps have made them. */
export const columns = [
  'seq',
  'id',
  'shelter',
  'subject',
  'kind',
  'v',
  'body',
  'happened_at',
  'zone',
  'recorded_at',
  'by_person',
  'with_person',
  'written_by',
  'device',
  'device_seq',
  'corrects',
  'received_at',
  'hash',
  'clock_ahead_ms',
  'clock_measured_at',
  'before_hash',
  'server_behind_ms',
] as const satisfies readonly (keyof RecordRow)[];

interface Found extends Proven {
  readonly place: Place;
  readonly device: string;
  readonly deviceSeq: number;
}

/** The record of a row when its hash holds; what it says is read again when it is written. */
function provenBy(place: Place, row: Row): Found[] {
  const kept = recordOf(row);
  if (kept === null) return [];
  const { record, before } = kept;
  const { seq, device, deviceSeq } = record;
  return [{ seq, hash: record.hash, before, place, device, deviceSeq }];
}

function recordOf({ rowid, values }: Row): { readonly record: KeptEnvelope; readonly before: string } | null {
  const row = Object.fromEntries(columns.map((column, index) => [column, values[index]])) as unknown as RecordRow;
  try {
    const record = fromRow({ ...row, seq: rowid });
    return hash(row.before_hash, record, sha256) === record.hash ? { record, before: row.before_hash } : null;
  } catch {
    // A row of another table, or one that is no record any more.
    return null;
  }
}

/** The records that were found, in order, each chained to the one before it here. */
function* chained(records: readonly Found[]): Generator<KeptEnvelope> {
  let end = { seq: 0, hash: noHash };
  for (const { place } of records) {
    const row = rowAt(place, columns.length);
    const kept = row === null ? null : recordOf(row);
    if (kept === null) throw new Error('a record changed while it was being saved');
    const placed = { ...kept.record, seq: end.seq + 1 };
    const record = { ...placed, hash: hash(end.hash, placed, sha256) };
    yield record;
    end = record;
  }
}

function runsOf(numbers: readonly number[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}

function subjectsOf(from: number, to: number, known: ReadonlyMap<number, string>): string[] {
  const subjects = new Set<string>();
  for (let seq = from; seq <= to; seq += 1) {
    const subject = known.get(seq);
    if (subject !== undefined) subjects.add(subject);
  }
  return [...subjects].sort();
}

/** Each device counts its own records from 1: a number that is not there has been lost, or was never taken in. */
function holesOf(records: readonly Found[]): Salvaged['devices'] {
  const byDevice = new Map<string, Set<number>>();
  for (const { device, deviceSeq } of records) {
    const numbers = byDevice.get(device) ?? new Set();
    byDevice.set(device, numbers.add(deviceSeq));
  }
  return [...byDevice].flatMap(([device, there]) => {
    const holes: [number, number][] = [];
    let next = 1;
    for (const number of [...there].sort((a, b) => a - b)) {
      if (number > next) holes.push([next, number - 1]);
      next = number + 1;
    }
    return holes.length === 0 ? [] : [{ device, numbers: holes }];
  });
}
