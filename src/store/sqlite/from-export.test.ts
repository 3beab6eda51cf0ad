import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { busyLog } from '../../../test/support/busy-log.js';
import { at } from '../../../test/support/log.js';
import { exportRecords } from '../export.js';
import { verifyStore } from '../verify.js';
import { storeFromExport } from './from-export.js';
import { openStore, type SqliteStore, storeFile } from './open.js';

const noon = at('2026-03-02', '12:00');
const folder = mkdtempSync(join(tmpdir(), 'roundhand-export-'));
const lines: string[] = [];
let copies = 0;
const fresh = (): string => join(folder, `copy-${++copies}`);

async function opened(data: string): Promise<SqliteStore> {
  const store = await openStore(data);
  if (!store.ok) throw new Error(JSON.stringify(store.why));
  return store.value;
}
async function* given(some: readonly string[]): AsyncGenerator<string> {
  yield* some;
}

beforeAll(async () => {
  const store = await opened(join(folder, 'first'));
  await store.append(busyLog().records, noon);
  for await (const line of exportRecords(store, () => undefined)) lines.push(line);
  await store.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a whole export, put into an empty store (Verifies: HEAD-R5)', () => {
  it('gives the same records, places, hashes, times of arrival and read tables', async () => {
    const to = fresh();
    expect(await storeFromExport(given(lines), to, noon)).toEqual({
      ok: true,
      value: { records: lines.length, receivedAt: noon },
    });
    const store = await opened(to);
    const again: string[] = [];
    for await (const line of exportRecords(store, () => undefined)) again.push(line);
    expect(again).toEqual(lines);
    expect(await verifyStore(store)).toMatchObject({ whole: true, records: lines.length });
    const first = await opened(join(folder, 'first'));
    expect(await store.head()).toMatchObject({ seq: lines.length, hash: (await first.head()).hash });
    expect(await store.rows('animals')).toEqual(await first.rows('animals'));
    await first.close();
    await store.close();
  });

  it.each([
    [
      'a record changed',
      () => lines.map((line, index) => (index === 7 ? line.replace('"kind":"', '"kind":"x') : line)),
      8,
    ],
    ['a record left out', () => lines.filter((_line, index) => index !== 4), 5],
    ['two swapped', () => [...lines.slice(0, 2), lines[3], lines[2], ...lines.slice(4)] as string[], 3],
    ['a field added', () => lines.map((line, index) => (index === 0 ? line.replace('{', '{"a":1,') : line)), 1],
    ['no export at all', () => ['hello'], 1],
    ['nothing', () => [], 1],
  ])('is refused with %s, and nothing is made', async (_what, some, seq) => {
    const to = fresh();
    expect(await storeFromExport(given(some()), to, noon)).toEqual({
      ok: false,
      why: { say: 'server.export.line-wrong', with: { seq } },
    });
    expect(existsSync(join(to, storeFile))).toBe(false);
  });

  it('writes over no records', async () => {
    expect(await storeFromExport(given(lines), join(folder, 'first'), noon)).toMatchObject({
      ok: false,
      why: { say: 'server.salvage.target-taken' },
    });
    const store = await opened(join(folder, 'first'));
    expect((await store.head()).seq).toBe(lines.length);
    await store.close();
  });
});
