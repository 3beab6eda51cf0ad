import { bytesToHex, hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js';
import { z } from 'zod';
import { no, type Outcome, ok } from '../../core/said.js';
import { canonical } from '../canonical.js';
import type { KeptEnvelope } from '../store.js';
import { type Digest, type Hash, leafHash, rootByInclusion, rootsByConsistency } from './merkle.js';

const hex = (bytes: number) => z.string().regex(new RegExp(`^[0-9a-f]{${2 * bytes}}$`));
const Size = z.int().min(0);

/** How far the log had come at an instant, as one hash over all its records, signed by the server. */
export const SignedHead = z.object({
  /** Records. */
  size: Size,
  /** Root of the tree over them. */
  root: hex(32),
  /** UTC ISO text, by the server's clock. */
  at: z.iso.datetime(),
  /** Public key, Ed25519 (RFC 8032). */
  key: hex(32),
  signature: hex(64),
});
export type SignedHead = z.infer<typeof SignedHead>;

/** What of a head is signed. */
export type Head = Pick<SignedHead, 'size' | 'root' | 'at'>;
/** Canonical JSON in UTF-8; the word at its beginning keeps the key's other signatures, if it ever makes any, apart. */
export const signedBytes = ({ size, root, at }: Head): Uint8Array =>
  utf8ToBytes(canonical({ what: 'roundhand tree head 1', size, root, at }));

/** A record is a leaf as it is exported: its line of canonical JSON, with place, hash and time of arrival, in UTF-8. */
export const recordLeaf = (record: KeptEnvelope, by?: Digest): Hash => leafHash(utf8ToBytes(canonical(record)), by);

/** That one record is in the log, or that the log of an older head is the beginning of it. It is checked without the log. */
export const Proof = z.discriminatedUnion('of', [
  z.object({
    of: z.literal('record'),
    /** As it is exported, with `seq`. */
    record: z.looseObject({ seq: z.int().min(1) }),
    path: z.array(hex(32)),
    head: SignedHead,
  }),
  z.object({
    of: z.literal('beginning'),
    from: z.object({ size: z.int().min(1), root: hex(32) }),
    path: z.array(hex(32)),
    head: SignedHead,
  }),
]);
export type Proof = z.infer<typeof Proof>;

/** Whether a key (hex) has signed these bytes. */
export type IsSigned = (bytes: Uint8Array, signature: string, key: string) => boolean;

/** Says no with the first thing that does not hold: the signature, or the way from what is proved to the signed root. */
export function checkProof(proof: Proof, isSigned: IsSigned): Outcome<Proof> {
  const { head } = proof;
  if (!isSigned(signedBytes(head), head.signature, head.key)) return no('head.not-signed');
  const path = proof.path.map(hexToBytes);
  if (proof.of === 'record') {
    const leaf = leafHash(utf8ToBytes(canonical(proof.record)));
    const root = rootByInclusion(leaf, proof.record.seq - 1, head.size, path);
    return root !== null && bytesToHex(root) === head.root ? ok(proof) : no('head.not-in');
  }
  const roots = rootsByConsistency({ ...proof.from, root: hexToBytes(proof.from.root) }, head.size, path);
  const same = roots !== null && bytesToHex(roots.from) === proof.from.root && bytesToHex(roots.to) === head.root;
  return same ? ok(proof) : no('head.not-beginning');
}
