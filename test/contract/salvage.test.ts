import { cpSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { KeptEnvelope } from '../../src/log/store.js';
import { blobsFolder, folderBlobs } from '../../src/store/blobs/folder.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { columns, type Salvaged, salvage } from '../../src/store/sqlite/salvage/salvage.js';
import { verifyStore } from '../../src/store/verify.js';
import { busyLog } from '../support/busy-log.js';
import { storeToDamage, ways } from '../support/damaged-store.js';
import { at } from '../support/log.js';

const noon = at('2026-03-02', '12:00');
let small: Awaited<ReturnType<typeof storeToDamage>>;
let all: readonly KeptEnvelope[];
beforeAll(async () => {
  small = await storeToDamage(busyLog().records, noon);
  all = (await contentOf(small.whole)).records;
});
afterAll(() => small.dispose());

async function contentOf(folder: string) {
  const store = await openStore(folder);
  if (!store.ok) throw new Error(JSON.stringify(store.why));
  try {
    const { whole } = await verifyStore(store.value);
    return { whole, records: await store.value.read(), head: await store.value.head() };
  } finally {
    await store.value.close();
  }
}

/** As they were written down and as they came in, without their place. */
const ownOf = ({ seq: _seq, hash: _hash, ...own }: KeptEnvelope): unknown => own;

const nothingMissing = { missing: [], devices: [], pictures: { saved: 0, damaged: [] } };

const placesOf = ({ missing }: Salvaged): number[] =>
  missing.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, index) => from + index));
const without = (places: readonly number[]): readonly KeptEnvelope[] => all.filter(({ seq }) => !places.includes(seq));

/** Numbers of devices that are told as missing. */
const holesOf = ({ devices }: Salvaged): string[] =>
  devices.flatMap(({ device, numbers }) =>
    numbers.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, index) => `${device} ${from + index}`)),
  );
/** The numbers that devices gave to records in these places, where a later one of the same device is there. */
const ownNumbers = (places: readonly number[], records: readonly KeptEnvelope[]): string[] =>
  all
    .filter(({ seq, device, deviceSeq }) => {
      const later = records.some((one) => one.device === device && one.deviceSeq > deviceSeq);
      return places.includes(seq) && later;
    })
    .map(({ device, deviceSeq }) => `${device} ${deviceSeq}`);

async function saved(folder: string) {
  const to = small.fresh();
  const done = await salvage(folder, to, noon);
  if (!done.ok) throw new Error(JSON.stringify(done.why));
  const content = await contentOf(to);
  expect(content.whole).toBe(true);
  rmSync(to, { recursive: true });
  return { report: done.value, ...content };
}

describe('what is saved of a damaged store (Verifies: LOG-R116)', () => {
  it('is all of it when nothing is damaged, with its places and its hashes', async () => {
    const { report, records } = await saved(small.whole);
    expect(records).toEqual(all);
    expect(report).toEqual({ records: all.length, places: all.length, endKnown: true, ...nothingMissing });
  });

  it.each(Object.entries(ways))(
    'is each record that has no part on a page that is %s, and the others are named',
    async (_way, bytes) => {
      expect(small.pages).toBeGreaterThan(80);
      let lost = 0;
      for (let page = 1; page <= small.pages; page += 1) {
        const folder = small.damaged(page, bytes(page));
        const { report, records } = await saved(folder);
        rmSync(folder, { recursive: true });
        const named = placesOf(report);
        lost += named.length;
        // Some have an older writing elsewhere in the file, which is as good.
        expect(small.recordsOn(page), `page ${page}`).toEqual(expect.arrayContaining(named));
        expect(records.map(ownOf), `page ${page}`).toEqual(without(named).map(ownOf));
        // Up to the first that is missing it is the same history, and beyond it another one.
        const other = records.findIndex((one, index) => one.hash !== all[index]?.hash);
        const tail = named.at(-1) === all.length;
        expect(other, `page ${page}`).toBe(named.length === 0 || tail ? -1 : (named[0] ?? 0) - 1);
        expect(holesOf(report), `page ${page}`).toEqual(expect.arrayContaining(ownNumbers(named, records)));
      }
      expect(lost).toBeGreaterThan(50);
    },
  );

  it('says what the missing were about, where the index still tells', async () => {
    const seen = new Set<string>();
    for (let page = 1; page <= small.pages; page += 1) {
      if (small.recordsOn(page).length < 2) continue;
      const folder = small.damaged(page, ways.zeroed());
      const { report } = await saved(folder);
      const about = placesOf(report).map((seq) => all[seq - 1]?.subject ?? '');
      expect(report.missing.flatMap((run) => run.subjects)).toEqual([...new Set(about)].sort());
      for (const subject of about) seen.add(subject);
    }
    expect(seen.size).toBeGreaterThan(3);
  });

  it('tells numbers that a device left out by their ends, however many they are', async () => {
    const log = busyLog();
    const [first, second] = log.records.slice(-2);
    if (first === undefined || second === undefined) throw new Error('no records');
    const far = { ...second, device: first.device, deviceSeq: Number.MAX_SAFE_INTEGER };
    const folder = small.fresh();
    const store = await openStore(folder);
    if (!store.ok) throw new Error(JSON.stringify(store.why));
    await store.value.append([...log.records.slice(0, -1), far], noon);
    await store.value.close();
    const engine = new SqliteDatabase(join(folder, storeFile));
    engine.exec(`update records set body = '{}' where seq = ${log.records.length - 1}`);
    engine.close();
    const { report } = await saved(folder);
    const { numbers = [] } = report.devices.find(({ device }) => device === first.device) ?? {};
    expect(numbers.at(-1)?.[1]).toBe(Number.MAX_SAFE_INTEGER - 1);
  });

  it('takes nothing that was changed by hand, and nothing is lost for it (Verifies: LOG-R117)', async () => {
    const folder = small.damaged(1, Buffer.alloc(0));
    const changed = all.filter(({ kind }) => kind === 'animal-weighed').map(({ seq }) => seq);
    const [one = 0, two = 0] = changed;
    const engine = new SqliteDatabase(join(folder, storeFile));
    engine.exec(`update records set body = replace(body, 'grams', 'gramS') where seq = ${one}`);
    engine.exec(`update records set happened_at = '2026-03-02T09:31:00.000Z' where seq = ${two}`);
    engine.close();
    const { report, records } = await saved(folder);
    expect(placesOf(report)).toEqual([one, two]);
    expect(records.map(ownOf)).toEqual(without([one, two]).map(ownOf));
  });

  it('is also what stands in the journal only, when the main file has lost its beginning', async () => {
    const log = busyLog();
    const folder = small.fresh();
    const store = await openStore(folder, { checkpoint_ms: 1_000_000 });
    if (!store.ok) throw new Error(JSON.stringify(store.why));
    await store.value.append(log.records, noon);
    const copy = small.fresh();
    cpSync(folder, copy, { recursive: true });
    await store.value.close();
    writeFileSync(join(copy, storeFile), Buffer.alloc(8192));
    const { records } = await saved(copy);
    expect(records).toEqual(all);
  });

  it('takes the pictures along that are what their names say, and names the others', async () => {
    const folder = small.damaged(1, Buffer.alloc(0));
    const there = folderBlobs(join(folder, blobsFolder));
    const [whole, damaged] = [await there.put(Buffer.from('one')), await there.put(Buffer.from('two'))];
    writeFileSync(join(folder, blobsFolder, damaged.slice(0, 2), damaged.slice(2)), 'other');
    const to = small.fresh();
    expect(await salvage(folder, to, noon)).toMatchObject({ value: { pictures: { saved: 1, damaged: [damaged] } } });
    expect(await folderBlobs(join(to, blobsFolder)).list()).toEqual([whole]);
  });

  it('is refused where there is nothing to save, and where records are already; nothing is made then', async () => {
    const nowhere = small.fresh();
    expect(await salvage(nowhere, small.fresh(), noon)).toMatchObject({ why: { say: 'server.salvage.nothing-there' } });
    expect(await salvage(small.whole, small.whole, noon)).toMatchObject({
      why: { say: 'server.salvage.target-taken' },
    });
  });

  it('reads the columns in the order in which they lie there', () => {
    const engine = new SqliteDatabase(join(small.whole, storeFile));
    expect((engine.pragma('table_info(records)') as { name: string }[]).map(({ name }) => name)).toEqual(columns);
    engine.close();
  });
});
