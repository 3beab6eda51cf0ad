import { createPrivateKey, X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { no, type Outcome, ok, type Said, said } from '../../core/said.js';
import { type Keys, readKeyFile } from '../../store/private/keys.js';
import {
  daysLeft,
  issue,
  makeAuthority,
  type Pair,
  permitted,
  type Reached,
  renewedWithin_days,
  serverDays,
} from './authority.js';

/** What https is served with. */
export interface Certificate extends Pair {
  /** The authority that a phone has to trust once; null where a certificate was given that the phone knows already. */
  readonly authority: Authority | null;
  /** What people have to know about it, one sentence each. */
  readonly told: readonly Said[];
}

export interface Authority {
  /** PEM. */
  readonly certificate: string;
  /** SHA-256 of the certificate, pairs of hex digits with colons, as systems show it. */
  readonly fingerprint: string;
}

/**
 * The certificate of an authority of our own. Both are made where they are missing, and anew where they are nearly over or
 * stand for another name; an address that came later is left out, because the authority must not vouch for it.
 */
export async function ownCertificate(keys: Keys, reached: Reached, at: string): Promise<Outcome<Certificate>> {
  const found = readPair(keys, 'authority');
  if (!found.ok) return found;
  const server = readPair(keys, 'server');
  if (!server.ok) return server;
  const told: Said[] = [];
  const whyNew = found.value === null ? null : outlived(found.value, reached, at);
  let authority = found.value;
  if (authority === null || whyNew !== null) {
    authority = await makeAuthority(reached, at);
    const kept = writePair(keys, 'authority', authority);
    if (!kept.ok) return kept;
    if (whyNew !== null) told.push(whyNew);
  }
  const may = permitted(authority.certificate, reached);
  const left = reached.addresses.filter((one) => !may.addresses.includes(one));
  if (left.length > 0) told.push(said('lan.address-new', { addresses: { list: left }, folder: keys.folder }));
  const certificate = stillGood(server.value, authority, may, at) ? server.value : await issue(authority, may, at);
  if (certificate !== server.value) {
    const kept = writePair(keys, 'server', certificate);
    if (!kept.ok) return kept;
  }
  const { fingerprint256 } = new X509Certificate(authority.certificate);
  return ok({
    ...certificate,
    authority: { certificate: authority.certificate, fingerprint: fingerprint256 },
    told,
  });
}

/** A certificate that was bought or came from the shelter's own authority. It is looked at before a phone has to. */
export function givenCertificate(
  files: { readonly certificate: string; readonly key: string },
  name: string | null,
  at: string,
): Outcome<Certificate> {
  const key = readKeyFile(files.key);
  if (!key.ok) return key;
  if (key.value === null) return no('lan.given.missing', { file: files.key });
  let certificate: string;
  let leaf: X509Certificate;
  try {
    certificate = readFileSync(files.certificate, 'utf8');
    leaf = new X509Certificate(certificate);
  } catch (error) {
    return no('lan.given.unreadable', {
      file: files.certificate,
      detail: error instanceof Error ? error.message : String(error),
    });
  }
  if (!belongTogether(leaf, key.value)) return no('lan.given.other-key', { ...files });
  if (name !== null && !isFor(leaf, name)) return no('lan.given.other-name', { file: files.certificate, name });
  const days = daysLeft(certificate, at);
  if (days < 0) return no('lan.given.over', { file: files.certificate });
  const told = days < renewedWithin_days ? [said('lan.given.soon-over', { file: files.certificate, days })] : [];
  return ok({ certificate, key: key.value, authority: null, told });
}

/** Why an authority cannot be gone on with, or null: phones then have to trust the next one. */
function outlived(authority: Pair, reached: Reached, at: string): Said | null {
  if (daysLeft(authority.certificate, at) < serverDays) return said('lan.authority-over');
  const may = permitted(authority.certificate, reached);
  if (reached.name !== null && may.name === null) return said('lan.authority-renamed', { name: reached.name });
  // With neither a name nor an address it could vouch for nothing.
  if (reached.name === null && may.addresses.length === 0) return said('lan.authority-moved');
  return null;
}

function stillGood(pair: Pair | null, authority: Pair, may: Reached, at: string): pair is Pair {
  if (pair === null || daysLeft(pair.certificate, at) < renewedWithin_days) return false;
  const leaf = new X509Certificate(pair.certificate);
  const issuer = new X509Certificate(authority.certificate);
  const names = [...(may.name === null ? [] : [may.name]), ...may.addresses];
  return leaf.verify(issuer.publicKey) && belongTogether(leaf, pair.key) && names.every((name) => isFor(leaf, name));
}

const isFor = (leaf: X509Certificate, name: string): boolean =>
  (isIP(name) === 0 ? leaf.checkHost(name, { subject: 'never' }) : leaf.checkIP(name)) !== undefined;

function belongTogether(leaf: X509Certificate, key: string): boolean {
  try {
    return leaf.checkPrivateKey(createPrivateKey(key));
  } catch {
    return false;
  }
}

function readPair(keys: Keys, name: string): Outcome<Pair | null> {
  const certificate = keys.read(`${name}.crt`);
  if (!certificate.ok) return certificate;
  const key = keys.read(`${name}.key`);
  if (!key.ok) return key;
  if (certificate.value === null || key.value === null) return ok(null);
  const pair = { certificate: certificate.value, key: key.value };
  // Written one after the other: a stop between the two leaves a pair that does not belong together.
  try {
    return ok(belongTogether(new X509Certificate(pair.certificate), pair.key) ? pair : null);
  } catch {
    return ok(null);
  }
}

function writePair(keys: Keys, name: string, { certificate, key }: Pair): Outcome<null> {
  const kept = keys.write(`${name}.key`, key);
  return kept.ok ? keys.write(`${name}.crt`, certificate) : kept;
}
