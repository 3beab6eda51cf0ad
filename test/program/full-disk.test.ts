import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readdirSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { draft } from '../../src/log/record.js';
import { openStore, type SqliteStore, storeFile } from '../../src/store/sqlite/open.js';
import { verifyStore } from '../../src/store/verify.js';
import { at } from '../support/log.js';
import { shelterLog } from '../support/shelter-log.js';
import { clientOf, type Program, requireBuilt, start, value } from './support/server.js';

let data: string;
let server: Program | null = null;
let mounted = false;
beforeAll(requireBuilt);
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-full-'));
});
afterEach(async () => {
  server?.child.kill('SIGTERM');
  await server?.ended;
  server = null;
  if (mounted) execFileSync('umount', [data]);
  mounted = false;
  rmSync(data, { recursive: true, force: true });
});

/** Sends descriptions of about 100 kB in each batch. */
async function filling() {
  const log = shelterLog(1);
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(log.records, new Date().toISOString());
  await opened.value.close();
  server = start(data);
  const url = await server.ready;
  if (url === null) throw new Error(JSON.stringify(await server.ended));
  const client = clientOf(url, 'sol');
  const batch = () =>
    log.add(
      Array.from({ length: 50 }, () =>
        draft('animal-described', 'animal:kit-1', { notes: 'x'.repeat(1900) }, at('2026-03-02')),
      ),
      'sol',
    );
  return { client, batch, send: async (records = batch()) => client.append({ records }) };
}

/** Longer than the second after which the server brings everything into the main file. */
const afterCheckpoint = () => setTimeout(2_500);

describe('a disk without room', () => {
  it('is told as what it is, ends nothing, and what waited is taken when there is room (Verifies: LOG-R21)', async (test) => {
    const mount = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', data]);
    if (mount.status !== 0) test.skip(`no small disk can be made here: ${mount.stderr}; run as the superuser`);
    mounted = true;
    const { client, batch, send } = await filling();
    let kept = 0;
    let refused = await send();
    for (; refused.ok && kept < 100; refused = await send()) kept += 1;
    expect(kept).toBeGreaterThan(2);
    expect(refused).toMatchObject({ ok: false, code: 'store-full', problem: { status: 507 } });
    expect(refused.ok ? '' : refused.problem?.detail).toContain('The disk of the server is full. Nothing was kept');
    await afterCheckpoint();
    expect(server?.child.exitCode).toBeNull();
    const { head } = value(await client.records({ after: 0, limit: 1 }));
    const waiting = batch();
    expect(await send(waiting)).toMatchObject({ ok: false, code: 'store-full' });
    execFileSync('mount', ['-o', 'remount,size=40m', data]);
    const { outcomes } = value(await send(waiting));
    expect(new Set(outcomes.map(({ outcome }) => outcome))).toEqual(new Set(['stored']));
    expect(outcomes[0]?.seq).toBe(head.seq + 1);
    expect(value(await client.verify())).toMatchObject({ whole: true });
  });

  it('does not end the server when only the main file cannot grow (Verifies: LOG-R21)', async () => {
    const { client, send } = await filling();
    const { pid } = server?.child ?? {};
    // The file of the records may not grow from here on; the journal beside it may, up to the same length.
    const most = Math.max(statSync(join(data, storeFile)).size, 400_000);
    execFileSync('prlimit', ['--pid', String(pid), `--fsize=${most}:`]);
    let sent = 0;
    for (let answer = await send(); answer.ok && sent < 20; answer = await send()) {
      sent += 1;
      await afterCheckpoint();
      if (server?.child.exitCode !== null) break;
    }
    expect(sent).toBeGreaterThan(0);
    await afterCheckpoint();
    expect(server?.child.exitCode).toBeNull();
    execFileSync('prlimit', ['--pid', String(pid), '--fsize=unlimited:']);
    value(await send());
    expect(value(await client.verify())).toMatchObject({ whole: true });
    server?.child.kill('SIGTERM');
    await server?.ended;
    const opened = await openStore(data);
    expect(opened.ok && (await verifyStore(opened.value)).whole).toBe(true);
    if (opened.ok) await opened.value.close();
  });

  it('is told when the records are opened, leaves nothing half made, and is no matter once there is room (Verifies: LOG-R110)', async (test) => {
    const mount = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', data]);
    if (mount.status !== 0) test.skip(`no small disk can be made here: ${mount.stderr}; run as the superuser`);
    mounted = true;
    for (const begun of [false, true]) {
      if (begun) await (await whole()).close();
      const filler = join(data, 'filler');
      const open = openSync(filler, 'w');
      expect(() => {
        for (;;) writeSync(open, Buffer.alloc(4096));
      }).toThrow(/ENOSPC/);
      closeSync(open);
      expect(await openStore(data), `begun: ${begun}`).toMatchObject({ ok: false, why: { say: 'server.store.full' } });
      server = start(data);
      expect(await server.ended).toMatchObject({ code: 1, err: expect.stringMatching(/^The disk is full: [^\n]+\n$/) });
      // The engine's own files beside it may stay, empty.
      expect(readdirSync(data).filter((name) => !/-(wal|shm)$/.test(name))).toEqual(
        begun ? ['filler', storeFile] : ['filler'],
      );
      rmSync(filler);
      const store = await whole();
      expect((await verifyStore(store)).whole).toBe(true);
      await store.close();
    }
  });

  it('is told apart from a limit on the length of files (Verifies: LOG-R111)', async () => {
    const { client, send } = await filling();
    const limit = (most: string) => execFileSync('prlimit', ['--pid', String(server?.child.pid), `--fsize=${most}:`]);
    limit('900000');
    let answer = await send();
    for (let sent = 0; answer.ok && sent < 40; sent += 1) answer = await send();
    expect(answer).toMatchObject({ ok: false, code: 'store-too-large', problem: { status: 507 } });
    expect(answer.ok ? '' : answer.problem?.detail).toMatch(/may not grow any further\. Nothing was kept/);
    expect(readdirSync(data).filter((name) => name.includes('trial'))).toEqual([]);
    limit('unlimited');
    value(await send());
    expect(value(await client.verify())).toMatchObject({ whole: true });
  });
});

describe('a folder that is taken away under the server', () => {
  it('is told, nothing is said to be kept, and what is put back is used again (Verifies: LOG-R112)', async () => {
    const { client, batch, send } = await filling();
    value(await send());
    const aside = `${data}-aside`;
    renameSync(data, aside);
    const waiting = batch();
    for (const answer of [await send(waiting), await client.shelter(), await client.records(), await client.due()]) {
      expect(answer).toMatchObject({ ok: false, code: 'store-gone', problem: { status: 500 } });
      expect(answer.ok ? '' : answer.problem?.detail).toMatch(/^The records of the server are not where they were/);
    }
    // Another store in the same place is not this one.
    await (await whole()).close();
    expect(await send(waiting)).toMatchObject({ ok: false, code: 'store-gone' });
    rmSync(data, { recursive: true });
    renameSync(aside, data);
    const { outcomes } = value(await send(waiting));
    expect(new Set(outcomes.map(({ outcome }) => outcome))).toEqual(new Set(['stored']));
    rmSync(data, { recursive: true });
    expect(await send()).toMatchObject({ ok: false, code: 'store-gone' });
    expect(server?.child.exitCode).toBeNull();
  });
});

/** A store in the folder with a few records. */
async function whole(): Promise<SqliteStore> {
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(JSON.stringify(opened.why));
  await opened.value.append(shelterLog(1).records, at('2026-03-02'));
  return opened.value;
}
