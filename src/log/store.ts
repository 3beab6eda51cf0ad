import type { CalendarDate } from '../core/calendar.js';
import type { AnimalId, RecordId } from '../core/ids.js';
import type { Said } from '../core/said.js';
import type { Arrival } from './arrival.js';
import type { ReadRows, ReadTable } from './read-rows.js';
import type { Envelope, LogRecord } from './record.js';
import type { Shelter } from './views/shelter.js';

/**
 * The port to whatever keeps one shelter's log. test/contract/store.ts is the measure: a store that passes it may be
 * used, and one that is not run through it may not.
 *
 * What every store owes:
 * - Records are never changed and never removed. They have places 1, 2, 3 ... without gaps, in the order they came in.
 * - When a promise of `append` resolves, the records survive loss of power.
 * - The read tables always stand for exactly the records kept: both change in one transaction.
 * - Several stores, in several processes, may be open on the same log: appends take turns.
 * - Trouble outside the caller's reach (disk full, damaged file) rejects with a `StoreTrouble`; nothing is then half done.
 */
export interface LogStore {
  /**
   * Keep a batch: all that is new in it, or (on rejection) none. The records must have been through `parseRecord`.
   *
   * Answers in the order of the batch. A record whose id is there already changes nothing: `already-there` when it says
   * the same, `conflict` when it says something else; the first one is what counts and the caller must tell somebody.
   * Two records "say the same" when they are equal once both are read through `parseRecord`, whatever the order of
   * their fields.
   *
   * `receivedAt` (UTC ISO text) is the server's clock, or the time of the last record when that is later (arrival.ts): it is
   * kept with each record, and the read tables stand for its day in the shelter's zone. An empty batch only brings the read tables to that day. Animals that the batch is not
   * about are brought to another day, or to what another signature, section or lot makes of them, after the answer, a few
   * at a time.
   */
  append(batch: readonly LogRecord[], receivedAt: string): Promise<readonly Appended[]>;

  /**
   * Records in order of place, as they were written down (not upcast; put them through `parseRecord`), after place
   * `after` (0 or left out: from the first), at most `limit` of them, and only those about `subject`, about something of one
   * of `types` (the part of the subject before the colon), with one of `ids`, or about no animal (`about: 'shelter'`), when
   * that is given. With `trusted`, a record whose hash does not hold has `null` for a body: nothing may be worked out from it,
   * nor given out as true.
   */
  read(ask?: {
    readonly after?: number;
    readonly subject?: string;
    readonly types?: readonly string[];
    readonly ids?: readonly RecordId[];
    readonly about?: 'shelter';
    readonly trusted?: boolean;
    readonly limit?: number;
  }): Promise<readonly KeptEnvelope[]>;

  /**
   * What a device holds of the log after a place, in order: everything that is not about an animal, and what is about
   * animals that are here or were never taken in. Of an animal that left only
   * when it has a record after `since`, so that the asker sees it go. Trusted, as in `read`. Costs what is held and what is new, not what ever was.
   */
  held(ask: HeldAsked): Promise<HeldPage>;

  /**
   * Animals that records are about, at most `limit` behind `after`, in the order of ids; with `inCare` only those that have
   * not left, among them those that nobody has taken in.
   */
  animals(ask: {
    readonly after?: string;
    readonly limit: number;
    readonly inCare?: boolean;
  }): Promise<readonly AnimalId[]>;

  /** The shelter as its records show it, all that were appended included. */
  shelter(): Promise<Shelter>;

  /**
   * How many records cannot be read of the shelter's and of those about animals in care. The first time after opening,
   * they are looked through once more.
   */
  unreadable(): Promise<number>;

  /** How far the log has come. */
  head(): Promise<Head>;

  /**
   * Rows of one read table whose named columns have exactly these values, in the order of the table's key. They stand for
   * the day of the head: animals in care, or the one that is asked for by `animal`, are brought there first.
   */
  rows<T extends ReadTable>(table: T, where?: Partial<ReadRows[T]>): Promise<readonly ReadRows[T][]>;

  /** How many rows lie in each read table. */
  counts(): Promise<Readonly<Record<ReadTable, number>>>;

  /** Resolves when no row of any animal stands for another day or ground than the head any more. */
  upToDate(): Promise<void>;

  /**
   * Throw the read tables away and write them again from the records alone, as of a day. Gives the same rows as
   * appending one by one, the last time on that day.
   */
  rebuild(today: CalendarDate): Promise<void>;

  /**
   * What the store's own means find wrong with the place where the log lies (pages, indexes), each in a few words of the
   * engine; none when all is well, or when it has no such means.
   */
  faults(): Promise<readonly string[]>;

  /** Let go of files and connections. The store may not be used afterwards; closing twice does nothing. */
  close(): Promise<void>;
}

export interface HeldAsked {
  readonly after: number;
  /** Where the log ended when the asker began to read it from its start; `after` once it has read that far. */
  readonly since: number;
  /** Most records in the answer; at least 1. */
  readonly limit: number;
}

export interface HeldPage {
  readonly records: readonly KeptEnvelope[];
  /** The place up to which this is all: ask `after` it for more. */
  readonly next: number;
  /** Those animals of the records that are not here any more. */
  readonly left: readonly AnimalId[];
}

/** A record as it lies in the log: the envelope as written, with its place, hash and time of arrival. */
export type KeptEnvelope = Envelope & { readonly seq: number; readonly hash: string } & Arrival;

export interface Appended {
  readonly id: RecordId;
  readonly outcome: 'stored' | 'already-there' | 'conflict';
  /** Place of the record that is in the log under this id. */
  readonly seq: number;
}

export interface Head {
  /** Place of the last record, 0 when there is none. */
  readonly seq: number;
  readonly hash: string;
  /** When the last record came in; null when there is none. */
  readonly receivedAt: string | null;
  /** The day the read tables stand for; null before the first append. */
  readonly rowsOn: CalendarDate | null;
  /** Animals whose rows still stand for an earlier day, or are judged by what does not hold any more. */
  readonly stale: number;
}

/** Codes of what can be wrong with the place where a log is kept. Each has a sentence `server.store.CODE`. */
export const storeTroubles = [
  'folder-missing',
  'folder-not-writable',
  'network-share',
  'not-a-store',
  'damaged',
  'newer-version',
  'changed-by-hand',
  'busy',
  'full',
  'too-large',
  'gone',
  'failed',
] as const;
export type StoreTroubleCode = (typeof storeTroubles)[number];
/** Those that are about a file, named in the sentence with what the system said. */
export type FileTrouble = Exclude<
  StoreTroubleCode,
  'folder-missing' | 'network-share' | 'newer-version' | 'changed-by-hand'
>;

/** Thrown by a store when it cannot do its work for a reason that a person has to deal with. */
export class StoreTrouble extends Error {
  constructor(
    readonly code: StoreTroubleCode,
    readonly why: Said,
    options?: ErrorOptions,
  ) {
    super(`${code}: ${why.say}`, options);
  }
}
