import { isAnimalRecord, type LogRecord, parseRecord } from '../log/record.js';
import { settled } from '../log/settled-time.js';
import type { KeptEnvelope, LogStore } from '../log/store.js';
import { foldShelter, noShelter, type Shelter } from '../log/views/shelter.js';
import { pages } from '../store/verify.js';

/**
 * The shelter as its records show it, read on from where it was read last. Only records that are not about animals are
 * kept: people, sections, documents, lots, rounds.
 */
export function shelterReader(store: LogStore): () => Promise<Shelter> {
  let seq = 0;
  let records: readonly LogRecord[] = [];
  let folded = { records, shelter: noShelter };
  let reading: Promise<Shelter> | null = null;

  async function readOn(): Promise<Shelter> {
    const head = await store.head();
    if (head.seq > seq) for await (const page of pages(store, seq)) keep(page);
    if (folded.records !== records) folded = { records, shelter: foldShelter(records) };
    return folded.shelter;
  }

  /** What was read and how far go on together: when a later page fails, this one is not read again and not forgotten. */
  function keep(page: readonly KeptEnvelope[]): void {
    const more = page.flatMap((raw): LogRecord[] => {
      const parsed = isAnimalRecord(raw) ? null : parseRecord(raw);
      return parsed?.ok === true ? [settled(parsed.value)] : [];
    });
    if (more.length > 0) records = [...records, ...more];
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
