import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { at } from '../../test/support/log.js';
import { shelterLog, weighed } from '../../test/support/shelter-log.js';
import type { KeptEnvelope, LogStore } from '../log/store.js';
import { checkInForce } from './in-force.js';
import { openStore, storeFile } from './sqlite/open.js';

let folder: string;
const noon = at('2026-03-02', '12:00');
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-in-force-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function looked(statement: string | null, weighings = 0) {
  const where = mkdtempSync(join(folder, 'store-'));
  const made = await openStore(where);
  if (!made.ok) throw new Error(JSON.stringify(made.why));
  const log = shelterLog(2);
  log.add(Array.from({ length: weighings }, (_, index) => weighed(1, 500 + index, noon)));
  await made.value.append(log.records, noon);
  await made.value.close();
  if (statement !== null) {
    const db = new SqliteDatabase(join(where, storeFile));
    db.exec(statement);
    db.close();
  }
  const opened = await openStore(where);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  const read: number[] = [];
  const counted: LogStore = {
    ...opened.value,
    read: async (ask) => {
      const records = await opened.value.read(ask);
      read.push(...records.map(({ seq }) => seq));
      return records;
    },
  };
  const faults = await checkInForce(counted);
  const kept = await opened.value.read({ trusted: true });
  const held = await opened.value.held({ after: 0, since: 0, limit: 100 });
  await opened.value.close();
  return {
    told: faults.map(({ say, with: values }) => [say, values?.seq ?? null]),
    distrusted: saysNothing(kept),
    heldBack: saysNothing(held.records),
    read,
  };
}

const saysNothing = (records: readonly KeptEnvelope[]): number[] =>
  records.filter(({ body }) => body === null).map(({ seq }) => seq);

describe('a look at what is in force (Verifies: LOG-R113)', () => {
  it('finds nothing wrong with a whole log, and reads as much of a long one as of a short one', async () => {
    const short = await looked(null);
    const long = await looked(null, 600);
    expect([short.told, long.told]).toEqual([[], []]);
    expect(long.read.length).toBe(short.read.length);
  });

  it.each([
    [
      'a figure of the protocol',
      'update records set body = replace(body, \'"version":"1"\', \'"version":"7"\') where kind = \'protocol-filed\'',
      'changed',
      7,
    ],
    [
      'the role of a person',
      "update records set body = replace(body, 'volunteer', 'medical') where seq = 2",
      'changed',
      2,
    ],
    [
      'the rank of a section',
      "update records set body = replace(body, 'quarantine', 'intake') where seq = 6",
      'changed',
      6,
    ],
    ['the hash of a signature', "update records set hash = replace(hash, 'a', 'b') where seq = 10", 'changed', 10],
    ['the zone of the shelter', "update records set body = '{' where seq = 1", 'changed', 1],
    ['a record at the end', 'delete from records where seq = 13', 'end', null],
  ])('tells a change of %s', async (_what, statement, code, seq) => {
    const { told, distrusted } = await looked(statement);
    expect(told).toContainEqual([`server.in-force.${code}`, seq]);
    if (seq !== null) expect(distrusted).toContain(seq);
  });

  it('gives no number of an animal out that is not as it was written down, to devices neither (Verifies: LOG-R119)', async () => {
    const weight = `update records set body = replace(body, '"grams":500', '"grams":900') where kind = 'animal-weighed'`;
    const { distrusted, heldBack } = await looked(weight, 1);
    expect([distrusted, heldBack]).toEqual([[14], [14]]);
  });

  it('leaves records about animals to the look through everything', async () => {
    expect((await looked("update records set body = '{' where seq = 12")).told).toEqual([]);
  });
});
