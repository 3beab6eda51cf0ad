import { X509Certificate } from 'node:crypto';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeAuthority, type Pair } from './authority.js';
import { openTrustDoor, type TrustDoor } from './trust-door.js';

let authority: Pair;
let door: TrustDoor;
const fingerprint = () => new X509Certificate(authority.certificate).fingerprint256;
const open = (port: number): Promise<TrustDoor> =>
  openTrustDoor(
    () => ({ certificate: authority.certificate, fingerprint: fingerprint() }),
    ['https://cats.test:8600', 'https://127.0.0.1:8600'],
    { at: '127.0.0.1', host: '127.0.0.1', port },
  );
beforeEach(async () => {
  authority = await makeAuthority({ name: 'cats.test', addresses: [] }, '2026-03-02T12:00:00.000Z');
  door = await open(0);
});
afterEach(() => door.close());

describe('the door that is open without https (Verifies: LAN-R4)', () => {
  it('leads through the systems, says what to compare and that no phone has tried it', async () => {
    const answer = await fetch(door.url);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
    const page = await answer.text();
    for (const part of ['Android', 'iPhone', 'Windows', 'Mac', 'Linux', 'Firefox']) expect(page).toContain(part);
    expect(page.match(/Take it out again/g)).toHaveLength(6);
    expect(page).toContain('have not been tried on a real phone');
    expect(page).toContain(fingerprint());
    expect(page).toContain('href="https://cats.test:8600"');
    expect(page).toContain('By an address no passkeys are offered');
    expect(page).not.toContain('<script');
    expect(page).not.toMatch(/lan\.|⟨|undefined/);
  });

  it('gives the certificate of the authority in the form and type that phones take', async () => {
    const answer = await fetch(new URL('/roundhand-authority.crt', door.url));
    expect(answer.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    const given = new X509Certificate(Buffer.from(await answer.arrayBuffer()));
    expect([given.fingerprint256, given.ca]).toEqual([fingerprint(), true]);
  });

  it.each([
    ['GET', '/api/health', 404],
    ['GET', '/api/records', 404],
    ['GET', '/index.html', 404],
    ['GET', '/keys/authority.key', 404],
    ['GET', '/../keys/authority.key', 404],
    ['POST', '/', 405],
    ['POST', '/api/records', 405],
    ['DELETE', '/roundhand-authority.crt', 405],
  ])('gives nothing else: %s %s', async (method, path, status) => {
    const answer = await fetch(new URL(path, door.url), { method });
    expect([answer.status, await answer.text()]).toEqual([status, '']);
  });

  it('opens at another port when its own is taken', async () => {
    const holder = createServer();
    await new Promise<void>((listening) => holder.listen(0, '127.0.0.1', listening));
    const { port } = holder.address() as AddressInfo;
    for (const taken of [port, 65_536]) {
      const other = await open(taken);
      expect((await fetch(other.url)).status).toBe(200);
      await other.close();
    }
    holder.close();
  });
});
