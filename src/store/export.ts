import { canonical } from '../log/canonical.js';
import { type ChainReport, chainStart, verifyChain } from '../log/hash.js';
import type { LogStore } from '../log/store.js';
import { sha256 } from './sha256.js';
import { pages } from './verify.js';

/**
 * Every record of a log, in order, each as one line of canonical JSON with its place, hash and time of arrival; a damaged one
 * as it lies. `broken` hears of the first place where the chain does not hold, once everything has been given.
 */
export async function* exportRecords(store: LogStore, broken: (seq: number) => void): AsyncGenerator<string> {
  let chain: ChainReport = { whole: true, end: chainStart };
  for await (const records of pages(store)) {
    if (chain.whole) chain = verifyChain(records, chain.end, sha256);
    for (const record of records) yield `${canonical(record)}\n`;
  }
  const { seq } = await store.head();
  if (chain.whole && chain.end.seq < seq) broken(chain.end.seq + 1);
  else if (!chain.whole) broken(chain.brokenAt);
}
