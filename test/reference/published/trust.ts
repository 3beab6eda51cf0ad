import { createPrivateKey } from 'node:crypto';
import {
  consistencyProof,
  emptyTree,
  type Hash,
  inclusionProof,
  leafHash,
  rootOf,
  withLeaf,
} from '../../../src/log/tree/merkle.js';
import { isSigned, signerOf } from '../../../src/store/private/signer.js';
import type { Asks, Given, Question } from './ask.js';
import { publishedOf } from './value.js';

const bytes = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex, 'hex'));
const hex = (hash: Uint8Array): string => Buffer.from(hash).toString('hex');

/** A secret key of 32 bytes as a key file has it: RFC 8410, section 7. */
const pkcs8 = (secret: string) =>
  createPrivateKey({
    key: Buffer.from(`302e020100300506032b657004220420${secret}`, 'hex'),
    format: 'der',
    type: 'pkcs8',
  });

const signing: Question = (given) => {
  const signer = signerOf(pkcs8(given('secretKey')));
  const message = bytes(given('message'));
  const signature = signer.sign(message);
  if (!isSigned(message, signature, signer.key)) throw new Error('what was signed is not taken as signed');
  return { publicKey: signer.key, signature };
};

const leavesIn = (given: Given): readonly Hash[] => given.list('leavesHex').map((one) => leafHash(bytes(one)));
/** Some values name the reference leaves without repeating them: they are those of TRUST-07. */
function referenceLeaves(size: number): readonly Hash[] {
  const tree = publishedOf('standards').find(({ id }) => id === 'TRUST-07');
  if (tree === undefined) throw new Error('TRUST-07 is not published');
  return (tree.given as { leavesHex: string[] }).leavesHex.slice(0, size).map((one) => leafHash(bytes(one)));
}
const rootOfAll = (leaves: readonly Hash[]): string =>
  hex(rootOf(leaves.reduce((tree, leaf) => withLeaf(tree, leaf), emptyTree)));

export const trust: Asks = {
  'TRUST-01': signing,
  'TRUST-03': signing,
  'TRUST-04': signing,
  'TRUST-05': (given) => ({ valid: isSigned(bytes(given('message')), given('signature'), given('publicKey')) }),
  'TRUST-07': (given) => {
    const leaves = leavesIn(given);
    return { roots: Array.from({ length: leaves.length + 1 }, (_, size) => rootOfAll(leaves.slice(0, size))) };
  },
  'TRUST-08': (given) => ({
    path: inclusionProof(leavesIn(given).slice(0, given.number('size')), given.number('leaf')).map(hex),
  }),
  'TRUST-10': (given) => ({
    path: inclusionProof(referenceLeaves(given.number('size')), given.number('leaf')).map(hex),
  }),
  'TRUST-11': (given) => ({
    proof: consistencyProof(referenceLeaves(given.number('to')), given.number('from')).map(hex),
  }),
  'TRUST-13': () => ({ emptyTree: rootOfAll([]), emptyLeaf: hex(leafHash(new Uint8Array())) }),
};
