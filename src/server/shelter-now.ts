import { isAnimalRecord, type LogRecord, parseRecord } from '../log/record.js';
import type { LogStore } from '../log/store.js';
import { foldShelter, noShelter, type Shelter } from '../log/views/shelter.js';
import { pages } from '../store/verify.js';

/**
 * The shelter as its records show it, read on from where it was read last. Only records that are not about animals are
 * kept: people, sections, documents, lots, rounds.
 */
export function shelterReader(store: LogStore): () => Promise<Shelter> {
  let seq = 0;
  let records: readonly LogRecord[] = [];
  let shelter = noShelter;
  let reading: Promise<Shelter> | null = null;

  async function readOn(): Promise<Shelter> {
    const head = await store.head();
    if (head.seq === seq) return shelter;
    const more: LogRecord[] = [];
    for await (const page of pages(store, seq)) {
      for (const raw of page) {
        seq = raw.seq;
        if (isAnimalRecord(raw)) continue;
        const parsed = parseRecord(raw);
        if (parsed.ok) more.push(parsed.value);
      }
    }
    if (more.length > 0) {
      records = [...records, ...more];
      shelter = foldShelter(records);
    }
    return shelter;
  }

  // One reading at a time: two would take the same records in twice.
  return () => {
    reading ??= readOn().finally(() => {
      reading = null;
    });
    return reading;
  };
}
