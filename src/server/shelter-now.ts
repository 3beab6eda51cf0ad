import { isAnimalRecord, type LogRecord, parseRecord } from '../log/record.js';
import { settled } from '../log/settled-time.js';
import type { KeptEnvelope, LogStore } from '../log/store.js';
import { type UnreadRecord, unreadOf } from '../log/unread.js';
import { foldShelter, noShelter, type Shelter } from '../log/views/shelter.js';
import { trusted } from '../store/in-force.js';
import { pages } from '../store/verify.js';

/**
 * The shelter as its records show it, read on from where it was read last. Only records that are not about animals are
 * kept: people, sections, documents, lots, rounds. Those in the places `distrusted` count as not to be read.
 */
export function shelterReader(store: LogStore, distrusted: ReadonlySet<number> = new Set()): () => Promise<Shelter> {
  let seq = 0;
  let records: readonly LogRecord[] = [];
  let unread: readonly UnreadRecord[] = [];
  let folded = { records, unread, shelter: noShelter };
  let reading: Promise<Shelter> | null = null;

  async function readOn(): Promise<Shelter> {
    const head = await store.head();
    if (head.seq > seq) for await (const page of pages(store, seq)) keep(page);
    if (folded.records !== records || folded.unread !== unread) {
      folded = { records, unread, shelter: foldShelter(records, unread) };
    }
    return folded.shelter;
  }

  /** What was read and how far go on together: when a later page fails, this one is not read again and not forgotten. */
  function keep(page: readonly KeptEnvelope[]): void {
    const more: LogRecord[] = [];
    const damaged: UnreadRecord[] = [];
    for (const raw of page) {
      if (isAnimalRecord(raw)) continue;
      const parsed = parseRecord(trusted(raw, distrusted));
      if (parsed.ok) more.push(settled(parsed.value));
      else damaged.push(unreadOf(raw));
    }
    if (more.length > 0) records = [...records, ...more];
    if (damaged.length > 0) unread = [...unread, ...damaged];
    seq = page.at(-1)?.seq ?? seq;
  }

  // One reading at a time: two would take the same records in twice.
  return () => {
    reading ??= readOn().finally(() => {
      reading = null;
    });
    return reading;
  };
}
