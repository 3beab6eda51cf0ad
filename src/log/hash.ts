import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { canonical } from './canonical.js';
import type { KeptEnvelope } from './store.js';

/** What the first record of a log is chained to: nothing came before it. */
export const noHash = '0'.repeat(64);

/** SHA-256 of a text in UTF-8, lower-case hex. A machine may have a quicker one than this program; the bytes are the same. */
export type Sha256 = (text: string) => string;
export const hashOfText: Sha256 = (text) => bytesToHex(sha256(utf8ToBytes(text)));

/**
 * Hash of one record in the chain: SHA-256, in lower-case hex, over the hash before it (hex) and the canonical JSON of
 * the record with its place (`seq`) and its time of arrival (`receivedAt`). Changing, leaving out, adding or swapping
 * any record changes every hash after it.
 */
export function hash(before: string, record: Omit<KeptEnvelope, 'hash'>, by: Sha256 = hashOfText): string {
  return by(before + canonical({ ...record, hash: undefined }));
}

/** Where a chain is, after the records looked at so far. */
export interface ChainEnd {
  readonly seq: number;
  readonly hash: string;
}
export const chainStart: ChainEnd = { seq: 0, hash: noHash };

export type ChainReport =
  | { readonly whole: true; readonly end: ChainEnd }
  | { readonly whole: false; readonly brokenAt: number; readonly fault: 'place-missing' | 'changed' };

/**
 * Follow the chain over records in order, from where it stood before them. Stops at the first record that is not in
 * its place or does not hash to what is written beside it. The record named is where it shows; the cause may be the one before.
 */
export function verifyChain(
  records: Iterable<KeptEnvelope>,
  from: ChainEnd = chainStart,
  by: Sha256 = hashOfText,
): ChainReport {
  let end = from;
  for (const record of records) {
    const seq = end.seq + 1;
    if (record.seq !== seq) return { whole: false, brokenAt: seq, fault: 'place-missing' };
    if (hash(end.hash, record, by) !== record.hash) return { whole: false, brokenAt: seq, fault: 'changed' };
    end = { seq, hash: record.hash };
  }
  return { whole: true, end };
}
