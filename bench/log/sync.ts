import { performance } from 'node:perf_hooks';
import { gunzipSync } from 'node:zlib';
import { ChipsPage, RecordsPage } from '../../src/api/wire.js';
import { createApp } from '../../src/server/app.js';
import { memoryBlobs } from '../../src/store/blobs/memory.js';
import { memorySignIns } from '../../src/store/private/sign-ins.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { cookieOf } from '../../test/support/signed-in.js';
import { at, today } from './shelter.js';

export interface Synced {
  readonly records: number;
  /** Of the records as a device reads them, and packed as they go over the network. */
  readonly bytes: number;
  readonly wireBytes: number;
  readonly ms: number;
  readonly chips: number;
  readonly chipWireBytes: number;
}

/** What a device that has nothing yet fetches from the server, and how long that takes; the index of chips by itself. */
export async function firstSync(folder: string): Promise<Synced> {
  const opened = await openStore(folder);
  if (!opened.ok) throw new Error(opened.why.say);
  const store = opened.value;
  await store.upToDate();
  const signIns = memorySignIns();
  const app = await createApp({ store, signIns, blobs: memoryBlobs(), clock: () => at(today, 705), version: 'bench' });
  const fetch = async (url: string): Promise<{ readonly text: string; readonly wireBytes: number }> => {
    const headers = { cookie: cookieOf(signIns, 'vera', at(today, 705)), 'accept-encoding': 'gzip' };
    const answer = await app.inject({ method: 'GET', url, headers });
    if (answer.statusCode !== 200) throw new Error(`${url} says ${answer.statusCode}: ${answer.body}`);
    const isPacked = answer.headers['content-encoding'] === 'gzip';
    const text = isPacked ? gunzipSync(answer.rawPayload).toString() : answer.body;
    return { text, wireBytes: answer.rawPayload.length };
  };
  const since = (await store.head()).seq;
  const whole = async () => {
    let [place, hash] = [0, ''];
    const sum = { records: 0, bytes: 0, wireBytes: 0 };
    const start = performance.now();
    for (;;) {
      const from = place === 0 ? '' : `&hash=${hash}`;
      const { text, wireBytes } = await fetch(`/api/records?after=${place}${from}&since=${since}&limit=500`);
      const page = RecordsPage.parse(JSON.parse(text));
      sum.records += page.records.length;
      sum.bytes += JSON.stringify(page.records).length;
      sum.wireBytes += wireBytes;
      if (page.next <= place || page.next >= page.head.seq) break;
      [place, hash] = [page.next, page.hash];
    }
    return { ...sum, ms: performance.now() - start };
  };
  // The first turns warm the compiler up.
  const turns = [];
  for (let turn = 0; turn < 7; turn += 1) turns.push(await whole());
  const best = turns.reduce((one, other) => (other.ms < one.ms ? other : one));
  const index = await fetch('/api/chips');
  const chips = ChipsPage.parse(JSON.parse(index.text)).chips.flatMap(({ numbers }) => numbers).length;
  await app.close();
  await store.close();
  return { ...best, chips, chipWireBytes: index.wireBytes };
}
