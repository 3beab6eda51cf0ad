import 'reflect-metadata';
import { webcrypto, X509Certificate } from 'node:crypto';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';

/** A certificate and its private key, both as PEM. */
export interface Pair {
  readonly certificate: string;
  readonly key: string;
}

/** What a server is reached by: one host name, or none, and IPv4 addresses. */
export interface Reached {
  readonly name: string | null;
  readonly addresses: readonly string[];
}

/**
 * Days that a certificate holds, and how many are left when the next one is made. Ours; Apple's systems take no more than
 * 825 days from an authority that a person added (from memory: Apple, requirements for trusted certificates in iOS 13).
 */
export const serverDays = 90;
export const renewedWithin_days = 30;
const authorityDays = 3650;

const day_ms = 86_400_000;
/** Clocks of phones lag behind; a certificate holds from an hour before it was made. */
const before_ms = 3_600_000;

const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };

x509.cryptoProvider.set(webcrypto as unknown as Parameters<typeof x509.cryptoProvider.set>[0]);

/**
 * An authority that can vouch for these names and addresses and for nothing else: its name constraints are critical (RFC
 * 5280, 4.2.1.10), kinds of names that it does not permit are excluded whole, it is for servers alone and makes no further
 * authority. `at`: UTC ISO text.
 */
export async function makeAuthority(reached: Reached, at: string): Promise<Pair> {
  const keys = await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
  const of = reached.name ?? reached.addresses.join(', ');
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    // The day keeps two authorities of one server apart in the lists of a phone.
    name: [{ CN: [`Roundhand at ${of}, ${at.slice(0, 10)}`] }],
    ...holding(at, authorityDays),
    signingAlgorithm: algorithm,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(constraints(reached))),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await keyText(keys.privateKey) };
}

/** A server's certificate by this authority. What the authority does not permit is put in as asked: whoever checks refuses it. */
export async function issue(authority: Pair, reached: Reached, at: string): Promise<Pair> {
  const issuer = new x509.X509Certificate(authority.certificate);
  const keys = await webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
  const certificate = await x509.X509CertificateGenerator.create({
    subject: '',
    issuer: issuer.subject,
    ...holding(at, serverDays),
    signingAlgorithm: algorithm,
    publicKey: keys.publicKey,
    signingKey: await privateKeyOf(authority.key),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      // Critical, because the subject is empty (RFC 5280, 4.2.1.6).
      new x509.SubjectAlternativeNameExtension(
        [
          ...(reached.name === null ? [] : [{ type: 'dns' as const, value: reached.name }]),
          ...reached.addresses.map((value) => ({ type: 'ip' as const, value })),
        ],
        true,
      ),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await keyText(keys.privateKey) };
}

/** What of this an authority may vouch for, read from its own constraints; nothing when it has none. */
export function permitted(authority: string, { name, addresses }: Reached): Reached {
  const extension = new x509.X509Certificate(authority).getExtension(id_ce_nameConstraints);
  if (extension === null) return { name: null, addresses: [] };
  const { permittedSubtrees } = AsnConvert.parse(extension.value, NameConstraints);
  const bases = [...(permittedSubtrees ?? [])].map((one) => one.base);
  return {
    name: bases.some((base) => base.dNSName === name) ? name : null,
    addresses: addresses.filter((address) => bases.some((base) => base.iPAddress === `${address}/32`)),
  };
}

/** Whole days for which a certificate still holds; below 0 once it is over. */
export function daysLeft(certificate: string, at: string): number {
  return Math.floor((Date.parse(new X509Certificate(certificate).validTo) - Date.parse(at)) / day_ms);
}

const holding = (at: string, days: number): { notBefore: Date; notAfter: Date } => ({
  notBefore: new Date(Date.parse(at) - before_ms),
  notAfter: new Date(Date.parse(at) + days * day_ms),
});

/** An empty DNS name is every name, and a mask of 0 every address. */
function constraints({ name, addresses }: Reached): NameConstraints {
  const every = { v4: '0.0.0.0/0', v6: '::/0' };
  const one = (base: ConstructorParameters<typeof GeneralName>[0]) =>
    new GeneralSubtree({ base: new GeneralName(base) });
  return new NameConstraints({
    permittedSubtrees: new GeneralSubtrees([
      ...(name === null ? [] : [one({ dNSName: name })]),
      ...addresses.map((address) => one({ iPAddress: `${address}/32` })),
    ]),
    excludedSubtrees: new GeneralSubtrees([
      ...(name === null ? [one({ dNSName: '' })] : []),
      ...(addresses.length === 0 ? [one({ iPAddress: every.v4 })] : []),
      one({ iPAddress: every.v6 }),
    ]),
  });
}

const keyText = async (key: webcrypto.CryptoKey): Promise<string> =>
  `${x509.PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY')}\n`;

function privateKeyOf(pem: string): Promise<webcrypto.CryptoKey> {
  const [der] = x509.PemConverter.decode(pem);
  if (der === undefined) throw new Error('there is no key in the file');
  return webcrypto.subtle.importKey('pkcs8', der, algorithm, false, ['sign']);
}
