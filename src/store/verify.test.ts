import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { at } from '../../test/support/log.js';
import { shelterLog, weighed } from '../../test/support/shelter-log.js';
import type { LogRecord } from '../log/record.js';
import { openStore, type SqliteStore, storeFile } from './sqlite/open.js';
import { verifyStore } from './verify.js';

let folder: string;
const noon = at('2026-03-02', '12:00');
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-verify-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function opened(): Promise<SqliteStore> {
  const outcome = await openStore(folder);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.why));
  return outcome.value;
}

describe('looking a store through (Verifies: LOG-R114)', () => {
  it('goes in pieces, and what comes in between them is kept and left to the next look', async () => {
    const store = await opened();
    const log = shelterLog(2);
    log.add(Array.from({ length: 250 }, (_, index) => weighed(1, 500 + index, noon)));
    await store.append(log.records, noon);
    const asked: number[] = [];
    let pauses = 0;
    const later: LogRecord[][] = [];
    const pieces = {
      ...store,
      read: (ask: Parameters<typeof store.read>[0] = {}) => {
        if (ask.subject === undefined && ask.about === undefined) asked.push(ask.limit ?? Number.POSITIVE_INFINITY);
        return store.read(ask);
      },
    };
    const report = await verifyStore(pieces, async () => {
      pauses += 1;
      if (later.length === 3) return;
      const batch = log.add([weighed(2, 400 + pauses, noon)]);
      later.push(batch);
      expect(await store.append(batch, noon)).toMatchObject([{ outcome: 'stored' }]);
    });
    expect(report).toMatchObject({ whole: true, records: log.records.length - 3 });
    expect((await store.head()).seq).toBe(log.records.length);
    expect(pauses).toBeGreaterThan(3);
    // Nothing asks for the log in one go, so that it never lies in memory at once.
    expect(Math.max(...asked)).toBeLessThanOrEqual(500);
    await store.close();
  });

  it('lets others have their turn while the engine checks its file, and ends with the store', async () => {
    const store = await opened();
    await store.append(shelterLog(2).records, noon);
    let turns = 0;
    const timer = setInterval(() => {
      turns += 1;
    }, 1);
    expect(await store.faults()).toEqual([]);
    clearInterval(timer);
    expect(turns).toBeGreaterThan(0);
    const waiting = store.faults();
    const ended = expect(waiting).rejects.toMatchObject({ code: 'failed' });
    await store.close();
    await ended;
  });

  it('reports what cannot be read at all, and goes on with the rest', async () => {
    const store = await opened();
    await store.append(shelterLog(4).records, noon);
    await store.close();
    const file = join(folder, storeFile);
    const whole = readFileSync(file);
    let opens = 0;
    for (let page = 2; page <= whole.length / 4096; page += 7) {
      const bytes = Buffer.from(whole);
      bytes.fill(0, 4096 * (page - 1), 4096 * page);
      writeFileSync(file, bytes);
      const again = await openStore(folder);
      if (!again.ok) {
        expect(again.why.say, `page ${page}`).toBe('server.store.damaged');
        expect(readFileSync(file).equals(bytes), `page ${page}`).toBe(true);
        continue;
      }
      opens += 1;
      // What says where the log ends cannot be read either: then that is the answer.
      const report = await verifyStore(again.value).catch((error: unknown) => {
        expect(error, `page ${page}`).toMatchObject({ code: 'damaged' });
        return { whole: false };
      });
      expect(report.whole, `page ${page}`).toBe(false);
      await again.value.close();
    }
    expect(opens).toBeGreaterThan(3);
  });
});
