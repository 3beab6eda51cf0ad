import { createHash, X509Certificate } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';

/**
 * Puts an authority (PEM) among those that the person of a new browser profile has imported, as chrome://certificate-manager
 * does. Chromium keeps them in the profile (components/server_certificate_database of its sources, version 1 of the table):
 * the certificate by its SHA-256, and beside it as protocol buffer { trust { trust_type: 3, trusted } }. Nothing of the
 * check is switched off by it: chain, constraints, name and time are looked at.
 */
export function trustIn(profile: string, authority: string): void {
  const der = new X509Certificate(authority).raw;
  const folder = join(profile, 'Default');
  mkdirSync(folder, { recursive: true });
  const db = new SqliteDatabase(join(folder, 'ServerCertificate'));
  db.exec(`
    create table meta (key longvarchar not null unique primary key, value longvarchar);
    insert into meta values ('version', '1'), ('last_compatible_version', '1');
    create table certificates (sha256hash_hex text primary key, der_cert blob not null, trust_settings blob not null);
  `);
  const trusted = Buffer.from([0x0a, 0x02, 0x08, 0x03]);
  db.prepare('insert into certificates values (?, ?, ?)').run(
    createHash('sha256').update(der).digest('hex'),
    der,
    trusted,
  );
  db.close();
}
