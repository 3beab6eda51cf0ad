import { parseRecord } from '../log/record.js';
import type { LogStore } from '../log/store.js';
import { pages } from '../store/verify.js';

/** How many records of the log cannot be read, read on from where it was read last. Asked only where something is listed. */
export function unreadCounter(store: LogStore): () => Promise<number> {
  let seq = 0;
  let count = 0;
  let reading: Promise<number> | null = null;

  async function readOn(): Promise<number> {
    const head = await store.head();
    if (head.seq > seq) {
      for await (const page of pages(store, seq)) {
        count += page.filter((raw) => !parseRecord(raw).ok).length;
        seq = page.at(-1)?.seq ?? seq;
      }
    }
    return count;
  }

  // One reading at a time: two would count the same records twice.
  return () => {
    reading ??= readOn().finally(() => {
      reading = null;
    });
    return reading;
  };
}
