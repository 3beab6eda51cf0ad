import { sha256 } from '@noble/hashes/sha2.js';
import { concatBytes } from '@noble/hashes/utils.js';

/*
 * The hash tree of RFC 9162, section 2.1, over a list that only grows.
 *
 *   leaf  SHA-256(00 | data)        node  SHA-256(01 | left | right)        of none: SHA-256 of nothing
 *
 * The left side of a tree of n > 1 leaves has as many as the largest power of two below n. Hashes are 32 bytes.
 */

export type Hash = Uint8Array;
/** SHA-256. A machine may have a quicker one than this program; the bytes are the same. */
export type Digest = (bytes: Uint8Array) => Uint8Array;

export const leafHash = (data: Uint8Array, by: Digest = sha256): Hash => by(concatBytes(Uint8Array.of(0), data));
const nodeHash = (left: Hash, right: Hash, by: Digest): Hash => by(concatBytes(Uint8Array.of(1), left, right));

/** What is needed of a tree to go on: the roots of its full parts, the largest first. */
export interface Grown {
  readonly size: number;
  readonly peaks: readonly Hash[];
}
export const emptyTree: Grown = { size: 0, peaks: [] };

/** The tree with one leaf more. */
export function withLeaf({ size, peaks }: Grown, leaf: Hash, by: Digest = sha256): Grown {
  const kept = [...peaks];
  let last = leaf;
  // Each full part as large as what has grown beside it becomes one with it.
  for (let parts = size; parts % 2 === 1; parts = (parts - 1) / 2) last = nodeHash(kept.pop() ?? last, last, by);
  return { size: size + 1, peaks: [...kept, last] };
}

export function rootOf({ peaks }: Grown, by: Digest = sha256): Hash {
  const [last, ...before] = peaks.toReversed();
  return last === undefined
    ? by(new Uint8Array())
    : before.reduce<Hash>((right, left) => nodeHash(left, right, by), last);
}

/** Hashes beside the way from a leaf (counted from 0) to the root: RFC 9162, 2.1.3.1. */
export function inclusionProof(leaves: readonly Hash[], index: number, by: Digest = sha256): readonly Hash[] {
  if (leaves.length <= 1) return [];
  const half = leftSize(leaves.length);
  return index < half
    ? [...inclusionProof(leaves.slice(0, half), index, by), treeHash(leaves.slice(half), by)]
    : [...inclusionProof(leaves.slice(half), index - half, by), treeHash(leaves.slice(0, half), by)];
}

/** The root that a proof leads to, or null when it cannot be one of such a tree: RFC 9162, 2.1.3.2. */
export function rootByInclusion(
  leaf: Hash,
  index: number,
  size: number,
  proof: readonly Hash[],
  by: Digest = sha256,
): Hash | null {
  if (index < 0 || index >= size) return null;
  let [place, last] = [index, size - 1];
  let root = leaf;
  for (const beside of proof) {
    if (last === 0) return null;
    if (place % 2 === 1 || place === last) {
      root = nodeHash(beside, root, by);
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else root = nodeHash(root, beside, by);
    [place, last] = [half(place), half(last)];
  }
  return last === 0 ? root : null;
}

/** Hashes that show that a tree of the first `from` leaves (1 or more) is the beginning of this one: RFC 9162, 2.1.4.1. */
export function consistencyProof(leaves: readonly Hash[], from: number, by: Digest = sha256): readonly Hash[] {
  const part = (some: readonly Hash[], old: number, known: boolean): readonly Hash[] => {
    if (old === some.length) return known ? [] : [treeHash(some, by)];
    const half = leftSize(some.length);
    return old <= half
      ? [...part(some.slice(0, half), old, known), treeHash(some.slice(half), by)]
      : [...part(some.slice(half), old - half, false), treeHash(some.slice(0, half), by)];
  };
  return part(leaves, from, true);
}

/** Both roots that a proof leads to, or null when it cannot be one of two such trees: RFC 9162, 2.1.4.2. */
export function rootsByConsistency(
  from: { readonly size: number; readonly root: Hash },
  size: number,
  proof: readonly Hash[],
  by: Digest = sha256,
): { readonly from: Hash; readonly to: Hash } | null {
  if (from.size < 1 || from.size > size) return null;
  if (from.size === size) return proof.length === 0 ? { from: from.root, to: from.root } : null;
  // An old tree that was full stands in the proof's first place by itself.
  const isFull = Number.isInteger(Math.log2(from.size));
  const [first, ...rest] = isFull ? [from.root, ...proof] : proof;
  if (first === undefined) return null;
  let [place, last] = [from.size - 1, size - 1];
  while (place % 2 === 1) [place, last] = [half(place), half(last)];
  let [old, now] = [first, first];
  for (const beside of rest) {
    if (last === 0) return null;
    if (place % 2 === 1 || place === last) {
      old = nodeHash(beside, old, by);
      now = nodeHash(beside, now, by);
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else now = nodeHash(now, beside, by);
    [place, last] = [half(place), half(last)];
  }
  return last === 0 ? { from: old, to: now } : null;
}

const treeHash = (leaves: readonly Hash[], by: Digest): Hash =>
  rootOf(
    leaves.reduce((tree, leaf) => withLeaf(tree, leaf, by), emptyTree),
    by,
  );

const half = (number: number): number => Math.floor(number / 2);
const leftSize = (size: number): number => 2 ** Math.ceil(Math.log2(size) - 1);
