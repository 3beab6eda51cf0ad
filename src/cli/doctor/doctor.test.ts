import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createServer as createSecure } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { shelterLog } from '../../../test/support/shelter-log.js';
import { ownCertificate } from '../../server/lan/certificate.js';
import { openKeys } from '../../store/private/keys.js';
import { openStore } from '../../store/sqlite/open.js';
import { say } from '../../words/say.js';
import type { Finding } from './finding.js';
import { lookAtCopies, lookAtKeys, lookAtRecords } from './keeping.js';
import { lookAtApp, lookAtDisk, lookAtNode } from './machine.js';
import { lookAtPort } from './port.js';

const noon = at('2026-03-02', '12:00');
const folder = mkdtempSync(join(tmpdir(), 'roundhand-doctor-'));
const data = join(folder, 'data');
const told = (found: readonly Finding[]): string[] => found.map(({ is, what }) => `${is}: ${say(what)}`);
const inFolder = (name: string): string => {
  const there = join(folder, name);
  mkdirSync(there, { recursive: true, mode: 0o700 });
  return there;
};

beforeAll(async () => {
  mkdirSync(data, { mode: 0o700 });
  const opened = await openStore(data);
  if (!opened.ok) throw new Error(say(opened.why));
  await opened.value.append(shelterLog().records, noon);
  await opened.value.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('what the doctor finds (Verifies: RUN-R1)', () => {
  it('records in order: nothing is wrong', async () => {
    const found = await lookAtRecords(data, noon);
    expect(found.filter(({ is }) => is === 'wrong')).toEqual([]);
    expect(told(found).join('\n')).toMatch(/well: \d+ records open, and the file is in order/);
  });

  it('no records, and what to do about it', async () => {
    expect(told(await lookAtRecords(join(folder, 'nowhere'), noon))).toEqual([
      `attention: There are no records in ${join(folder, 'nowhere')}. If there should be some, give the right folder with --data; else begin with “start”.`,
    ]);
  });

  it('a clock that lies behind the records', async () => {
    expect(told(await lookAtRecords(data, at('2026-03-01', '12:00'))).join('\n')).toMatch(
      /wrong: The clock of the server/,
    );
  });

  it('a file that is no file of records', async () => {
    const other = inFolder('other');
    writeFileSync(join(other, 'roundhand.sqlite'), 'not a database, whatever it is called '.repeat(40));
    expect(told(await lookAtRecords(other, noon)).join('\n')).toMatch(/wrong: The file .* is not a record file/);
  });

  it('a folder that others can look into', async () => {
    chmodSync(data, 0o755);
    const found = await lookAtRecords(data, noon).finally(() => chmodSync(data, 0o700));
    expect(told(found).join('\n')).toMatch(/attention: Other accounts .* \(rights 755\)/);
  });

  it.each([
    [10 * 1024 ** 3, 'well: The disk of D has 10 gigabytes free.'],
    [1024 ** 3 - 1, 'attention: The disk of D has only 1023 megabytes free.'],
    [64 * 1024 ** 2 - 1, 'wrong: The disk of D is full (63 megabytes free)'],
  ])('a disk with %d bytes free', (free, words) => {
    expect(told([lookAtDisk('D', free)])[0]).toContain(words);
  });

  it.each([
    ['18.19.0', 'wrong'],
    ['20.18.9', 'wrong'],
    ['20.19.0', 'well'],
    ['22.0.0', 'well'],
  ])('Node %s: %s', (version, is) => {
    expect(lookAtNode(version).is).toBe(is);
  });

  it('an app that is not built', () => {
    expect(lookAtApp(folder).is).toBe('wrong');
  });

  it('copies: no place named, none there, an old one, a new one; one from the future counts for nothing', () => {
    const place = inFolder('copies');
    expect(lookAtCopies(null, noon).map(({ is }) => is)).toEqual(['attention']);
    expect(lookAtCopies(join(folder, 'no-disk'), noon)[0]?.is).toBe('wrong');
    writeFileSync(join(place, 'roundhand-2027-03-02-12-00-00.tar'), '');
    expect(told(lookAtCopies(place, noon))[0]).toContain('wrong: There is no copy in');
    writeFileSync(join(place, 'roundhand-2026-02-26-12-00-00.tar'), '');
    expect(told(lookAtCopies(place, noon))[0]).toMatch(/wrong: The newest copy is of .*, 4 days ago/);
    writeFileSync(join(place, 'roundhand-2026-03-02-06-00-00.tar'), '');
    expect(lookAtCopies(place, noon)[0]?.is).toBe('well');
  });

  it('a certificate: good, not renewed, over; keys that others can read', async () => {
    const own = inFolder('with-keys');
    expect(lookAtKeys(own, noon)).toEqual([]);
    const keys = openKeys(own);
    if (!keys.ok) throw new Error(say(keys.why));
    await ownCertificate(keys.value, { name: 'roundhand.local', addresses: [] }, noon);
    expect(lookAtKeys(own, noon)[0]?.is).toBe('well');
    expect(lookAtKeys(own, at('2026-05-10', '12:00'))[0]?.is).toBe('attention');
    expect(told(lookAtKeys(own, at('2026-07-10', '12:00')))[0]).toContain('wrong: The certificate for phones is over');
    chmodSync(join(own, 'keys', 'server.key'), 0o644);
    expect(lookAtKeys(own, noon)[0]?.is).toBe('wrong');
  });

  it('who answers at the port: nobody, a stranger, the server with what it says against itself', async () => {
    let answer: unknown = 'hello';
    const server = createServer((_, reply) => void reply.end(JSON.stringify(answer)));
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const { port } = server.address() as AddressInfo;
    expect((await lookAtPort(port, data)).is).toBe('wrong');
    answer = { ok: true, version: '1.2.3', told: [] };
    expect(told([await lookAtPort(port, data)])[0]).toContain('version 1.2.3');
    answer = { ok: true, version: '1.2.3', told: ['The clock is behind.'] };
    expect(told([await lookAtPort(port, data)])[0]).toContain('wrong: The server at port');
    await new Promise((done) => server.close(done));
    expect(told([await lookAtPort(port, data)])[0]).toContain('the port is free');
  });

  it('a server on https, by the authority beside its records; another one there is a stranger', async () => {
    const own = inFolder('on-lan');
    const keys = openKeys(own);
    if (!keys.ok) throw new Error(say(keys.why));
    const served = await ownCertificate(
      keys.value,
      { name: 'roundhand.local', addresses: [] },
      new Date().toISOString(),
    );
    if (!served.ok) throw new Error(say(served.why));
    const { certificate: cert, key } = served.value;
    const server = createSecure({ cert, key }, (_, reply) => void reply.end('{"version":"1.2.3","told":[]}'));
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const { port } = server.address() as AddressInfo;
    expect(told([await lookAtPort(port, own)])[0]).toContain('well: The server answers');
    const another = inFolder('another');
    const others = openKeys(another);
    if (!others.ok) throw new Error(say(others.why));
    await ownCertificate(others.value, { name: 'roundhand.local', addresses: [] }, new Date().toISOString());
    expect((await lookAtPort(port, another)).is).toBe('wrong');
    expect((await lookAtPort(port, inFolder('certificate-of-its-own'))).is).toBe('well');
    await new Promise((done) => server.close(done));
  });

  it('records that break off while they are looked at: that is told, and nothing is thrown', async () => {
    const broken = inFolder('broken');
    const bytes = readFileSync(join(data, 'roundhand.sqlite'));
    const size = 4096;
    const seen: string[] = [];
    for (let page = 0; page * size < bytes.length; page += 1) {
      const damaged = Buffer.from(bytes);
      damaged.fill(0x5a, page * size, Math.min(bytes.length, (page + 1) * size));
      rmSync(broken, { recursive: true, force: true });
      inFolder('broken');
      writeFileSync(join(broken, 'roundhand.sqlite'), damaged);
      const found = await lookAtRecords(broken, noon);
      if (found.some(({ is }) => is === 'wrong')) seen.push(String(page));
    }
    expect(seen.length).toBeGreaterThan(3);
  });
});
