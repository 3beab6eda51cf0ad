import { execFileSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, request } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysLeft, issue, makeAuthority, type Pair, permitted, type Reached } from './authority.js';

// Whoever checks a certificate goes by the real time. A certificate counts whole seconds.
const now = new Date(Math.floor(Date.now() / 1000) * 1000).toISOString();
const ours: Reached = { name: 'cats.test', addresses: ['127.0.0.1', '192.0.2.7'] };
const folder = mkdtempSync(join(tmpdir(), 'roundhand-authority-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let authority: Pair;
beforeAll(async () => {
  authority = await makeAuthority(ours, now);
});

/** What Node's TLS, which checks by OpenSSL, says of a server with this certificate that is asked by this name. */
async function asked(leaf: Pair, servername: string | null, ca = authority): Promise<string> {
  const server = createServer({ cert: leaf.certificate, key: leaf.key }, (_request, reply) => reply.end('here'));
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  const answer = await new Promise<string>((done) => {
    request(
      { host: '127.0.0.1', port, ...(servername === null ? {} : { servername }), ca: ca.certificate, agent: false },
      (reply) => {
        reply.resume();
        done(`answered ${reply.statusCode}`);
      },
    )
      .on('error', (error) => done(error.message))
      .end();
  });
  await new Promise((closed) => {
    server.close(closed);
    server.closeAllConnections();
  });
  return answer;
}

const strangers: readonly (readonly [string, Reached])[] = [
  ['another site', { name: 'bank.example', addresses: [] }],
  ['a name that only ends alike', { name: 'othercats.test', addresses: [] }],
  ['our name beside another', { name: 'cats.test', addresses: ['192.0.2.8'] }],
  ['another address', { name: null, addresses: ['10.0.0.1'] }],
];

describe('an authority vouches for its own server alone (Verifies: LAN-R1)', () => {
  it('and is believed where it does', async () => {
    const leaf = await issue(authority, ours, now);
    expect(await asked(leaf, 'cats.test')).toBe('answered 200');
    const read = new X509Certificate(leaf.certificate);
    expect(read.verify(new X509Certificate(authority.certificate).publicKey)).toBe(true);
    expect(read.checkHost('cats.test')).toBe('cats.test');
    expect(read.checkIP('192.0.2.7')).toBe('192.0.2.7');
    expect([read.ca, read.checkHost('bank.example'), read.checkIP('10.0.0.1')]).toEqual([false, undefined, undefined]);
    expect(daysLeft(leaf.certificate, now)).toBe(90);
  });

  it.each(strangers)('is not believed for %s', async (_what, other) => {
    const leaf = await issue(authority, other, now);
    expect(await asked(leaf, other.name)).toBe('permitted subtree violation');
    // The same, by an authority that is for these: so it is the constraint that refuses.
    const open = await makeAuthority(other, now);
    const rightful = await issue(open, other, now);
    if (other.name !== null) expect(await asked(rightful, other.name, open)).toBe('answered 200');
  });

  it('is for no name at all when the server has an address only, and for no address when it has a name only', async () => {
    const byAddress = await makeAuthority({ name: null, addresses: ['127.0.0.1'] }, now);
    expect(await asked(await issue(byAddress, { name: 'cats.test', addresses: [] }, now), 'cats.test', byAddress)).toBe(
      'excluded subtree violation',
    );
    const byName = await makeAuthority({ name: 'cats.test', addresses: [] }, now);
    const leaf = await issue(byName, { name: 'cats.test', addresses: ['127.0.0.1'] }, now);
    expect(await asked(leaf, 'cats.test', byName)).toBe('excluded subtree violation');
  });

  it('says itself what it may', () => {
    expect(permitted(authority.certificate, { name: 'cats.test', addresses: ['192.0.2.7', '192.0.2.8'] })).toEqual({
      name: 'cats.test',
      addresses: ['192.0.2.7'],
    });
    expect(permitted(authority.certificate, { name: 'dogs.test', addresses: [] })).toEqual({
      name: null,
      addresses: [],
    });
  });
});

/** The program openssl, where this computer has it: a second reader, by RFC 5280. */
const openssl = (...args: string[]): string | null => {
  try {
    return execFileSync('openssl', args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  } catch (error) {
    const { code, stderr = '' } = error as { code?: string; stderr?: string };
    return code === 'ENOENT' ? null : `refused: ${stderr}`;
  }
};

// Without the program there is no second reader to ask; the tests above ask Node's.
describe.skipIf(openssl('version') === null)('openssl, as a second reader', () => {
  const file = (name: string, text: string): string => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  };

  it('reads the constraints as critical, the authority as the last one and for servers alone (Verifies: LAN-R1)', () => {
    const text = openssl('x509', '-in', file('ca.pem', authority.certificate), '-noout', '-text') ?? '';
    expect(text).toMatch(
      /Name Constraints: critical\s+Permitted:\s+DNS:cats\.test\s+IP:127\.0\.0\.1\/255\.255\.255\.255/,
    );
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(text).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign/);
    expect(text).toMatch(/Extended Key Usage:\s+TLS Web Server Authentication\s/);
  });

  it('verifies our own certificate and no other (Verifies: LAN-R1)', async () => {
    const ca = file('ca.pem', authority.certificate);
    const verify = async (reached: Reached): Promise<string> => {
      const leaf = file('leaf.pem', (await issue(authority, reached, now)).certificate);
      return openssl('verify', '-x509_strict', '-purpose', 'sslserver', '-CAfile', ca, leaf) ?? '';
    };
    expect(await verify(ours)).toContain('leaf.pem: OK');
    for (const [what, other] of strangers) expect(await verify(other), what).toContain('permitted subtree violation');
  });
});
