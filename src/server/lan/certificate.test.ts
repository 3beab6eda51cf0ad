import { X509Certificate } from 'node:crypto';
import { chmodSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Keys, openKeys } from '../../store/private/keys.js';
import { issue, makeAuthority, type Reached } from './authority.js';
import { type Certificate, givenCertificate, ownCertificate } from './certificate.js';

const reached: Reached = { name: 'cats.test', addresses: ['192.0.2.7'] };
const made = '2026-03-02T12:00:00.000Z';
const daysOn = (days: number): string => new Date(Date.parse(made) + days * 86_400_000).toISOString();

let data: string;
let keys: Keys;
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-certificate-'));
  const opened = openKeys(data);
  if (!opened.ok) throw new Error(opened.why.say);
  keys = opened.value;
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

async function own(at: string, to: Reached = reached): Promise<Certificate> {
  const certificate = await ownCertificate(keys, to, at);
  if (!certificate.ok) throw new Error(JSON.stringify(certificate.why));
  return certificate.value;
}
const says = ({ told }: Certificate): string[] => told.map((one) => one.say);
const ends = ({ certificate }: Certificate): string => new Date(new X509Certificate(certificate).validTo).toISOString();

describe('the certificate of our own authority', () => {
  it('is made once and kept', async () => {
    const first = await own(made);
    expect(says(first)).toEqual([]);
    expect(readdirSync(keys.folder).sort()).toEqual(['authority.crt', 'authority.key', 'server.crt', 'server.key']);
    expect(await own(daysOn(1))).toEqual(first);
  });

  it('is made anew by the same authority when 30 days or fewer are left (Verifies: LAN-R3)', async () => {
    const first = await own(made);
    expect((await own(daysOn(59))).certificate).toBe(first.certificate);
    const next = await own(daysOn(61));
    expect(next.authority).toEqual(first.authority);
    expect([ends(first), ends(next)]).toEqual([daysOn(90), daysOn(151)]);
    expect(says(next)).toEqual([]);
    // Also after it is over, as when nobody started the server over the winter.
    expect(ends(await own(daysOn(400)))).toBe(daysOn(490));
  });

  it('gets a new authority before the old one is over, and says so (Verifies: LAN-R3)', async () => {
    const first = await own(made);
    const late = await own(daysOn(3650 - 89));
    expect(late.authority).not.toEqual(first.authority);
    expect(says(late)).toEqual(['lan.authority-over']);
    expect(says(await own(daysOn(3650 - 89)))).toEqual([]);
  });

  it('gets a new authority for another name, and says so', async () => {
    const first = await own(made);
    const other = await own(made, { ...reached, name: 'dogs.test' });
    expect(other.authority).not.toEqual(first.authority);
    expect(says(other)).toEqual(['lan.authority-renamed']);
    expect(new X509Certificate(other.certificate).checkHost('dogs.test')).toBe('dogs.test');
  });

  it('leaves out an address that came later, keeps the authority that phones trust, and says so', async () => {
    const first = await own(made);
    const moved = await own(made, { name: 'cats.test', addresses: ['192.0.2.99'] });
    expect(moved.authority).toEqual(first.authority);
    expect(new X509Certificate(moved.certificate).checkIP('192.0.2.99')).toBeUndefined();
    expect(says(moved)).toEqual(['lan.address-new']);
    const byAddress = await own(made, { name: null, addresses: ['192.0.2.99'] });
    expect(says(byAddress)).toEqual(['lan.authority-moved']);
  });

  it('is made again when what lies there does not belong together or is no certificate', async () => {
    const first = await own(made);
    const other = await makeAuthority(reached, made);
    writeFileSync(join(keys.folder, 'server.crt'), (await issue(other, reached, made)).certificate);
    const again = await own(made);
    expect(again.authority).toEqual(first.authority);
    expect(
      new X509Certificate(again.certificate).verify(new X509Certificate(first.authority?.certificate ?? '').publicKey),
    ).toBe(true);
    writeFileSync(join(keys.folder, 'server.crt'), 'not a certificate');
    expect(ends(await own(made))).toBe(daysOn(90));
  });

  it('is refused while others may read a key (Verifies: LAN-R2)', async () => {
    await own(made);
    chmodSync(join(keys.folder, 'authority.key'), 0o644);
    expect(await ownCertificate(keys, reached, made)).toMatchObject({ ok: false, why: { say: 'lan.keys.file-open' } });
  });
});

describe('a certificate that was given', () => {
  const files = { certificate: '', key: '' };
  beforeEach(async () => {
    const { certificate, key } = await issue(await makeAuthority(reached, made), reached, made);
    files.certificate = join(data, 'own.crt');
    files.key = join(data, 'own.key');
    writeFileSync(files.certificate, certificate);
    writeFileSync(files.key, key, { mode: 0o600 });
  });
  const given = (at = made, name: string | null = 'cats.test', more: Partial<typeof files> = {}) =>
    givenCertificate({ ...files, ...more }, name, at);

  it('is taken as it is, without an authority to trust', () => {
    expect(given()).toMatchObject({ ok: true, value: { authority: null, told: [] } });
    expect(given(daysOn(61))).toMatchObject({
      ok: true,
      value: { told: [{ say: 'lan.given.soon-over', with: { days: 29 } }] },
    });
  });

  it.each([
    ['over', () => given(daysOn(91)), 'lan.given.over'],
    ['for another name', () => given(made, 'dogs.test'), 'lan.given.other-name'],
    ['without its key', () => given(made, null, { key: join(data, 'none') }), 'lan.given.missing'],
    ['no certificate', () => given(made, null, { certificate: files.key }), 'lan.given.unreadable'],
  ])('is refused when it is %s', (_what, ask, why) => {
    expect(ask()).toMatchObject({ ok: false, why: { say: why } });
  });

  it('is refused with another key, and with one that others may read (Verifies: LAN-R2)', async () => {
    writeFileSync(files.key, (await makeAuthority(reached, made)).key);
    expect(given()).toMatchObject({ ok: false, why: { say: 'lan.given.other-key' } });
    chmodSync(files.key, 0o640);
    expect(given()).toMatchObject({ ok: false, why: { say: 'lan.keys.file-open' } });
  });
});
