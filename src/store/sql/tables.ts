import type { DeviceId, PersonId, RecordId, ShelterId } from '../../core/ids.js';
import { canonical } from '../../log/canonical.js';
import type { ReadRows } from '../../log/read-rows.js';
import type { KeptEnvelope } from '../../log/store.js';

export interface RecordRow {
  readonly seq: number;
  readonly id: string;
  readonly shelter: string;
  readonly subject: string;
  readonly kind: string;
  readonly v: number;
  readonly body: string;
  readonly happened_at: string;
  readonly zone: string;
  readonly recorded_at: string;
  readonly by_person: string;
  readonly with_person: string | null;
  readonly written_by: string | null;
  readonly device: string;
  readonly device_seq: number;
  readonly corrects: string | null;
  readonly clock_ahead_ms: number | null;
  readonly clock_measured_at: string | null;
  readonly received_at: string;
  readonly hash: string;
  /** Hash of the record before, or what stands for none. */
  readonly before_hash: string;
  readonly server_behind_ms: number | null;
}

export interface HeadRow {
  readonly one: number;
  readonly seq: number;
  readonly hash: string;
  readonly received_at: string | null;
  /** Counts up with everything that is written, so that a program sees that another one has written. */
  readonly turn: number;
  /** Day that the read tables stand for, but for the animals that `animal_folds` says otherwise of; and their shape. */
  readonly rows_on: string | null;
  readonly rows_shape: string;
}

/** Where the rows of each animal stand. Made and thrown away with the read tables. */
export interface FoldRow {
  readonly animal: string;
  /** 0 for one that has left. */
  readonly in_care: 0 | 1;
  /** 1 when no later day changes anything about it. */
  readonly at_rest: 0 | 1;
  /** How many of its records cannot be read. */
  readonly unread: number;
  /** The day its rows were worked out for. */
  readonly rows_on: string;
  /** What they were judged by (`ground.ts`); empty when that has changed for this animal. */
  readonly ground: string;
}

export interface Database extends ReadRows {
  readonly animal_folds: FoldRow;
  readonly records: RecordRow;
  readonly log_head: HeadRow;
  readonly store_migrations: { readonly number: number; readonly name: string; readonly checksum: string };
}

export const toRow = (record: KeptEnvelope, before: string): RecordRow => ({
  seq: record.seq,
  id: record.id,
  shelter: record.shelter,
  subject: record.subject,
  kind: record.kind,
  v: record.v,
  body: canonical(record.body),
  happened_at: record.happenedAt,
  zone: record.zone,
  recorded_at: record.recordedAt,
  by_person: record.by,
  with_person: record.with ?? null,
  written_by: record.writtenBy ?? null,
  device: record.device,
  device_seq: record.deviceSeq,
  corrects: record.corrects ?? null,
  clock_ahead_ms: record.clock?.ahead_ms ?? null,
  clock_measured_at: record.clock?.measuredAt ?? null,
  received_at: record.receivedAt,
  hash: record.hash,
  before_hash: before,
  server_behind_ms: record.serverBehind_ms ?? null,
});

/** Records in order as rows, the first of them after a record with the hash `before`. */
export const toRows = (records: readonly KeptEnvelope[], before: string): RecordRow[] =>
  records.map((record, index) => toRow(record, records[index - 1]?.hash ?? before));

/** As it lies there, damaged or not: what does not fit is found by whoever reads it, and blocks nothing behind it. */
export const fromRow = (row: RecordRow): KeptEnvelope => ({
  id: row.id as RecordId,
  shelter: row.shelter as ShelterId,
  subject: row.subject,
  kind: row.kind,
  v: row.v,
  body: bodyOf(row.body),
  happenedAt: row.happened_at,
  zone: row.zone,
  recordedAt: row.recorded_at,
  by: row.by_person as PersonId,
  ...(row.with_person === null ? {} : { with: row.with_person as PersonId }),
  ...(row.written_by === null ? {} : { writtenBy: row.written_by as PersonId }),
  device: row.device as DeviceId,
  deviceSeq: row.device_seq,
  ...(row.corrects === null ? {} : { corrects: row.corrects as RecordId }),
  ...(row.clock_ahead_ms === null || row.clock_measured_at === null
    ? {}
    : { clock: { ahead_ms: row.clock_ahead_ms, measuredAt: row.clock_measured_at } }),
  seq: row.seq,
  receivedAt: row.received_at,
  ...(row.server_behind_ms === null ? {} : { serverBehind_ms: row.server_behind_ms }),
  hash: row.hash,
});

/** A body that somebody has damaged is still shown: the chain will say that it was changed. */
function bodyOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
