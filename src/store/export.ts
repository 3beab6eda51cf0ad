import { canonical } from '../log/canonical.js';
import type { LogStore } from '../log/store.js';
import { pages } from './verify.js';

/** Every record of a log, in order, each as one line of canonical JSON with its place, hash and time of arrival. */
export async function* exportRecords(store: LogStore): AsyncGenerator<string> {
  for await (const records of pages(store)) {
    for (const record of records) yield `${canonical(record)}\n`;
  }
}
