import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { LogRecord } from '../../src/log/record.js';
import { openStore, storeFile } from '../../src/store/sqlite/open.js';
import { at } from '../support/log.js';
import { shelterLog, weighed } from '../support/shelter-log.js';
import { asking, clientOf, type Program, requireBuilt, start, value } from './support/server.js';

/** What is damaged where it lies is told as what it is, and takes nothing else along. */
let data: string;
let running: { readonly child: Program['child']; readonly ended: Promise<unknown> }[] = [];
beforeAll(requireBuilt);
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-damage-'));
});
afterEach(async () => {
  for (const one of running) one.child.kill('SIGTERM');
  await Promise.all(running.map((one) => one.ended));
  running = [];
  rmSync(data, { recursive: true, force: true });
});

async function keep(records: readonly LogRecord[]): Promise<void> {
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(records, new Date().toISOString());
  await opened.value.close();
}

/** As a fault of the disk or a hand would leave it. */
function damage(...statements: string[]): void {
  const db = new SqliteDatabase(join(data, storeFile));
  db.unsafeMode(true);
  for (const statement of statements) db.exec(statement);
  db.close();
}

async function served(): Promise<string> {
  const server = start(data);
  running.push(server);
  const url = await server.ready;
  if (url === null) throw new Error(JSON.stringify(await server.ended));
  return url;
}

describe('damage on the built program', () => {
  it('does not keep devices from what lies behind a damaged record (Verifies: LOG-R17)', async () => {
    const log = shelterLog(3);
    await keep([...log.records, ...log.add([weighed(1, 600, at('2026-03-02')), weighed(2, 610, at('2026-03-02'))])]);
    const all = log.records.length;
    damage(`update records set id = '', happened_at = 'x' where seq = ${all - 3}`);
    damage(`update records set body = substr(body, 1, 9) where seq = ${all - 1}`);
    const client = clientOf(await served(), 'ines');
    const page = value(await client.records());
    expect(page.damaged?.map(({ seq }) => seq)).toEqual([all - 3, all - 1]);
    expect(page.damaged?.[1]).toMatchObject({ kind: 'animal-weighed', subject: 'animal:kit-1' });
    expect(page.records.map(({ seq }) => seq)).toEqual(
      Array.from({ length: all }, (_, index) => index + 1).filter((seq) => seq !== all - 3 && seq !== all - 1),
    );
    expect(page.next).toBe(all);
    // A page of nothing else goes on too.
    expect(value(await client.records({ after: all - 2, limit: 1 }))).toMatchObject({ records: [], next: all - 1 });
    expect(value(await clientOf(client.url('health').replace('/api/health', ''), 'sol').verify())).toMatchObject({
      whole: false,
      unreadable: [{ seq: all - 3 }, { seq: all - 1 }],
    });
  });

  it('says that a document in force is damaged, and gives no empty list (Verifies: LOG-R18)', async () => {
    for (const document of ['protocol', 'formulary']) {
      await keep(shelterLog(2).records);
      damage(`update records set body = '{"x":1}' where kind = '${document}-filed'`);
      const url = await served();
      const due = await clientOf(url, 'ines').due();
      expect(due).toMatchObject({ ok: false, code: 'document-damaged' });
      expect(due.ok ? '' : due.problem?.detail).toMatch(new RegExp(`^The ${document} in force .*starter.*version 1`));
      const csv = await fetch(`${url}/api/due?format=csv`, { headers: asking(url, 'ines') });
      expect([csv.status, csv.headers.get('content-type')]).toEqual([500, 'application/problem+json; charset=utf-8']);
      running.at(-1)?.child.kill('SIGTERM');
      await running.at(-1)?.ended;
      rmSync(data, { recursive: true });
    }
  });

  it('takes a damaged signature for a document in force that is damaged (Verifies: LOG-R40)', async () => {
    for (const how of ['body = \'{"x":1}\'', "body = '{'", "kind = 'document-sung'"]) {
      await keep(shelterLog(2).records);
      damage(`update records set ${how} where kind = 'document-signed' and subject = 'document:starter'`);
      const due = await clientOf(await served(), 'ines').due();
      expect(due, how).toMatchObject({ ok: false, code: 'document-damaged' });
      expect(due.ok ? '' : due.problem?.detail).toMatch(/^A record about the protocol \(starter\) cannot be read/);
      running.at(-1)?.child.kill('SIGTERM');
      await running.at(-1)?.ended;
      rmSync(data, { recursive: true });
    }
  });

  it('tells at the start, on the console and to every device, what is changed of what is in force, and does not use it (Verifies: LOG-R113)', async () => {
    await keep(shelterLog(2).records);
    // Still to be read, and another figure: only the hash says that nobody wrote it.
    damage(`update records set body = replace(body, '"version":"1"', '"version":"1 "') where kind = 'protocol-filed'`);
    const url = await served();
    const client = clientOf(url, 'ines');
    const state = value(await client.shelter());
    const changed = { say: 'server.in-force.changed', with: { seq: 7, what: { say: 'server.in-force.document' } } };
    expect(state).toMatchObject({ state: 'ready', told: [changed] });
    expect(await client.due()).toMatchObject({ ok: false, code: 'document-damaged' });
    expect(value(await client.records()).damaged?.map(({ seq }) => seq)).toContain(7);
    const health = value(await client.health());
    expect(health.told[0]).toMatch(/^The record in place 7, about the document starter, is not as it was written down/);
    const server = running.at(-1);
    server?.child.kill('SIGTERM');
    expect(await server?.ended).toMatchObject({ err: expect.stringContaining(health.told[0] ?? '') });
  });

  it('looks the records through by itself, and tells what it finds and when it looked (Verifies: LOG-R114)', async () => {
    await keep(shelterLog(2).records);
    damage("update records set body = replace(body, 'Kit 1', 'Kit 7') where kind = 'animal-taken-in'");
    const url = await served();
    const client = clientOf(url, 'ines');
    expect(value(await client.shelter())).toMatchObject({ told: [] });
    await expect.poll(async () => value(await client.health()).looked).toMatchObject({ whole: false, records: 13 });
    const { told } = value(await client.health());
    expect(told[0]).toMatch(/^The chain breaks at record 12/);
    expect(value(await client.shelter())).toMatchObject({
      told: [{ say: 'server.verify.chain-broken', with: { seq: 12 } }],
    });
    const server = running.at(-1);
    server?.child.kill('SIGTERM');
    expect(await server?.ended).toMatchObject({ code: 0, err: `${told.join('\n')}\n` });
  });

  it('counts what cannot be read beside what is due (Verifies: LOG-R45)', async () => {
    const log = shelterLog(2);
    await keep([...log.records, ...log.add([weighed(1, 600, at('2026-03-02'))])]);
    damage("update records set body = '{' where kind = 'animal-weighed'");
    expect(value(await clientOf(await served(), 'ines').due())).toMatchObject({ unreadable: 1 });
  });

  it('sets no second shelter up where the first cannot be read (Verifies: LOG-R18)', async () => {
    await keep(shelterLog(2).records);
    damage("update records set body = '{' where kind = 'shelter-described'");
    const url = await served();
    const client = clientOf(url, 'ines');
    expect(await client.shelter()).toMatchObject({ ok: false, code: 'records-damaged' });
    const again = await fetch(`${url}/api/shelter/demo`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    });
    expect(await again.json()).toMatchObject({ code: 'records-damaged' });
  });

  it('finds an index that has lost its place (Verifies: LOG-R19)', async () => {
    await keep(shelterLog(3).records);
    damage(
      'drop index records_subject',
      'create index records_subject on records (kind, seq)',
      'pragma writable_schema = on',
      `update sqlite_schema set sql = 'CREATE INDEX records_subject on records (subject, seq)' where name = 'records_subject'`,
      'pragma writable_schema = off',
    );
    const report = value(await clientOf(await served(), 'sol').verify());
    expect(report).toMatchObject({ whole: false, chain: { whole: true }, unreadable: [] });
    expect(report.engine.join(' ')).toMatch(/missing from index records_subject/);
  });
});
