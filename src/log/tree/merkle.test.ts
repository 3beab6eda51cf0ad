import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  consistencyProof,
  emptyTree,
  type Hash,
  inclusionProof,
  leafHash,
  rootByInclusion,
  rootOf,
  rootsByConsistency,
  withLeaf,
} from './merkle.js';

const leavesOf = (size: number): Hash[] =>
  Array.from({ length: size }, (_, index) => leafHash(utf8ToBytes(`${index}`)));
const treeOf = (leaves: readonly Hash[]) => leaves.reduce((tree, leaf) => withLeaf(tree, leaf), emptyTree);
const rootOfAll = (leaves: readonly Hash[]): Hash => rootOf(treeOf(leaves));
const hex = (hash: Hash | null | undefined): string | null => (hash ? bytesToHex(hash) : null);
const changed = (hash: Hash): Hash => hash.map((byte, index) => (index === 5 ? byte ^ 1 : byte));

// The published values are asked in test/reference/published; here is what holds for every tree.
describe('a tree that only grows (Verifies: HEAD-R1, HEAD-R3)', () => {
  it('leads from every leaf of every size to its root, and from nothing else', () => {
    for (let size = 1; size <= 40; size += 1) {
      const leaves = leavesOf(size);
      const root = hex(rootOfAll(leaves));
      for (const [index, leaf] of leaves.entries()) {
        const path = inclusionProof(leaves, index);
        expect(hex(rootByInclusion(leaf, index, size, path))).toBe(root);
        expect(hex(rootByInclusion(changed(leaf), index, size, path))).not.toBe(root);
        if (index > 0) expect(hex(rootByInclusion(leaf, index - 1, size, path))).not.toBe(root);
        for (const at of path.keys())
          expect(
            hex(
              rootByInclusion(
                leaf,
                index,
                size,
                path.map((one, place) => (place === at ? changed(one) : one)),
              ),
            ),
          ).not.toBe(root);
        expect(rootByInclusion(leaf, index, size, [...path, leaf])).toBeNull();
        expect(hex(rootByInclusion(leaf, index, size, path.slice(1)))).not.toBe(size === 1 ? null : root);
      }
    }
  });

  it('has every smaller one as its beginning, and no other', () => {
    for (let size = 1; size <= 33; size += 1) {
      const leaves = leavesOf(size);
      const root = rootOfAll(leaves);
      for (let from = 1; from <= size; from += 1) {
        const old = { size: from, root: rootOfAll(leaves.slice(0, from)) };
        const proof = consistencyProof(leaves, from);
        const found = rootsByConsistency(old, size, proof);
        expect([hex(found?.from), hex(found?.to)]).toEqual([hex(old.root), hex(root)]);
        if (from < size) {
          // Another history of the same length is not its beginning.
          const other = {
            size: from,
            root: rootOfAll([...leaves.slice(0, from - 1), changed(leaves[from - 1] as Hash)]),
          };
          const wrong = rootsByConsistency(other, size, proof);
          expect(hex(wrong?.from) === hex(other.root) && hex(wrong?.to) === hex(root)).toBe(false);
          expect(rootsByConsistency(old, size, [...proof, root])).toBeNull();
        }
      }
    }
    const leaves = leavesOf(4);
    for (const [from, size] of [
      [0, 4],
      [5, 4],
    ] as const)
      expect(rootsByConsistency({ size: from, root: rootOfAll(leaves) }, size, [])).toBeNull();
  });

  it('is the same whatever it is grown in', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 9 }), { maxLength: 70 }), fc.nat(), (data, cut) => {
        const leaves = data.map((one) => leafHash(one));
        const first = leaves.slice(0, cut % (leaves.length + 1));
        const tree = leaves.slice(first.length).reduce((so, leaf) => withLeaf(so, leaf), treeOf(first));
        expect(tree.size).toBe(leaves.length);
        expect(hex(rootOf(tree))).toBe(hex(rootOfAll(leaves)));
      }),
    );
  });
});
