import { createHash } from 'node:crypto';
import { appendFileSync, closeSync, fsyncSync, openSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { no, type Outcome, ok } from '../core/said.js';
import { canonical } from '../log/canonical.js';
import { chainStart, verifyChain } from '../log/hash.js';
import type { KeptEnvelope, LogStore } from '../log/store.js';
import {
  consistencyProof,
  type Digest,
  emptyTree,
  type Hash,
  inclusionProof,
  rootOf,
  withLeaf,
} from '../log/tree/merkle.js';
import { type Proof, recordLeaf, SignedHead, signedBytes } from '../log/tree/signed-head.js';
import { openKeys } from './private/keys.js';
import { isSigned, openSigner } from './private/signer.js';
import { sha256 } from './sha256.js';
import { pages } from './verify.js';

/** Heads that were signed, one a line, oldest first; beside the records, and in every copy of them. */
export const headsFile = 'heads.jsonl';

const digest: Digest = (bytes) => createHash('sha256').update(bytes).digest();

export interface Heads {
  /** Signs how far the log has come, and keeps the head; the same log gives the head that was kept. No of an empty log. */
  readonly sign: () => Promise<Outcome<SignedHead>>;
  /** Those that were signed before. */
  readonly kept: () => readonly SignedHead[];
}

/** Signs heads of the log of a data folder. What was read once is not read again: a head costs the records that are new. */
export function headsOf(store: LogStore, data: string, clock: () => string): Heads {
  let tree = emptyTree;
  let end = chainStart;
  let turn: Promise<unknown> = Promise.resolve();
  const signNow = async (): Promise<Outcome<SignedHead>> => {
    for await (const page of pages(store, end.seq)) {
      const chain = verifyChain(page, end, sha256);
      // Nothing is vouched for that does not prove itself.
      if (!chain.whole) return no('server.verify.chain-broken', { seq: chain.brokenAt });
      for (const record of page) tree = withLeaf(tree, recordLeaf(record, digest), digest);
      end = chain.end;
    }
    if (tree.size === 0) return no('head.none');
    const root = hexOf(rootOf(tree, digest));
    const last = keptIn(data).findLast((head) => head.size === tree.size && head.root === root);
    if (last !== undefined) return ok(last);
    const keys = openKeys(data);
    if (!keys.ok) return keys;
    const signer = openSigner(keys.value);
    if (!signer.ok) return signer;
    const head = { size: tree.size, root, at: clock() };
    const { key, sign } = signer.value;
    const signed = { ...head, key, signature: sign(signedBytes(head)) };
    keep(data, signed);
    return ok(signed);
  };
  return {
    // One after the other: two at once would count the same records twice.
    sign: () => {
      const next = turn.then(signNow);
      turn = next.catch(() => undefined);
      return next;
    },
    kept: () => keptIn(data),
  };
}

/** The proof that a record is in the log that a head stands for; null when it came later, or is not there. */
export async function proveRecord(store: LogStore, id: string, head: SignedHead): Promise<Proof | null> {
  let found: KeptEnvelope | null = null;
  const leaves = await leavesOf(store, head.size, (record) => {
    if (record.id === id) found = record;
  });
  const record = found as KeptEnvelope | null;
  if (record === null) return null;
  const path = inclusionProof(leaves, record.seq - 1, digest).map(hexOf);
  return { of: 'record', record: { ...record }, path, head };
}

/** The proof that the first `from` records were the whole log once, and are its beginning now. */
export async function proveBeginning(store: LogStore, from: number, head: SignedHead): Promise<Proof | null> {
  if (from < 1 || from > head.size) return null;
  const leaves = await leavesOf(store, head.size);
  const old = leaves.slice(0, from).reduce((so, leaf) => withLeaf(so, leaf, digest), emptyTree);
  const path = consistencyProof(leaves, from, digest).map(hexOf);
  return { of: 'beginning', from: { size: from, root: hexOf(rootOf(old, digest)) }, path, head };
}

/** Heads that were kept and that the log, or their own signature, does not bear out: something before them was changed. */
export async function headFaults(
  store: LogStore,
  data: string,
): Promise<{ kept: number; wrong: readonly SignedHead[] }> {
  const kept = keptIn(data);
  const roots = new Map<number, string>();
  const asked = new Set(kept.map(({ size }) => size));
  let tree = emptyTree;
  await leavesOf(store, Math.max(0, ...asked), (_record, leaf) => {
    tree = withLeaf(tree, leaf, digest);
    if (asked.has(tree.size)) roots.set(tree.size, hexOf(rootOf(tree, digest)));
  });
  const isRight = (head: SignedHead): boolean =>
    roots.get(head.size) === head.root && isSigned(signedBytes(head), head.signature, head.key);
  return { kept: kept.length, wrong: kept.filter((head) => !isRight(head)) };
}

async function leavesOf(
  store: LogStore,
  size: number,
  see: (record: KeptEnvelope, leaf: Hash) => void = () => undefined,
): Promise<readonly Hash[]> {
  const leaves: Hash[] = [];
  if (size === 0) return leaves;
  for await (const page of pages(store)) {
    for (const record of page) {
      if (leaves.length >= size) return leaves;
      const leaf = recordLeaf(record, digest);
      leaves.push(leaf);
      see(record, leaf);
    }
  }
  return leaves;
}

/** A line that was cut off by a loss of power is none. */
function keptIn(data: string): readonly SignedHead[] {
  let text: string;
  try {
    text = readFileSync(join(data, headsFile), 'utf8');
  } catch {
    return [];
  }
  return text.split('\n').flatMap((line) => {
    try {
      const head = SignedHead.safeParse(JSON.parse(line));
      return head.success ? [head.data] : [];
    } catch {
      return [];
    }
  });
}

function keep(data: string, head: SignedHead): void {
  const handle = openSync(join(data, headsFile), 'a', 0o644);
  try {
    appendFileSync(handle, `${canonical(head)}\n`);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

const hexOf = (hash: Hash): string => Buffer.from(hash).toString('hex');
