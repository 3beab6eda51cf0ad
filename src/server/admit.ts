import type { FormularyDocument } from '../core/dosing/formulary.js';
import type { PersonId } from '../core/ids.js';
import type { Role } from '../core/people.js';
import type { ProtocolDocument } from '../core/protocol/document.js';
import { type SayValue, said } from '../core/said.js';
import { isWholeText } from '../log/canonical.js';
import { unsignable } from '../log/commands/shelter.js';
import { isKind, type LogRecord, parseRecord } from '../log/record.js';
import type { KeptEnvelope } from '../log/store.js';
import type { Person, Shelter } from '../log/views/shelter.js';
import { mayAppend, whoMay } from '../log/who-may.js';
import { type Refusal, refuse, refuseBecause } from './refusal.js';

/** Looks up what a correction corrects, among the records about one subject. */
export type Corrected = (record: LogRecord) => Promise<Pick<KeptEnvelope, 'kind'> | null>;

/**
 * Whether records may come into the log. A fact is never refused for looking wrong: turned away is only what cannot be
 * read, belongs elsewhere, or was done by somebody who may not; signing what contradicts itself, or figures from
 * memory unconfirmed, is such an act.
 * People and documents earlier in the same batch count.
 */
export function gate(shelter: Shelter, corrected: Corrected): (raw: unknown) => Promise<LogRecord | Refusal> {
  const people = new Map<PersonId, Pick<Person, 'name' | 'role' | 'licence'>>();
  for (const person of shelter.people) people.set(person.id, person);
  const documents = new Map<string, ProtocolDocument | FormularyDocument>();
  const file = (document: ProtocolDocument | FormularyDocument): void => {
    const key = keyOf('products' in document ? 'formulary' : 'protocol', document);
    if (!documents.has(key)) documents.set(key, document);
  };
  for (const filed of [...shelter.protocols, ...shelter.formularies]) file(filed.document);

  return async (raw) => {
    if (!isWholeThroughout(raw)) return refuseBecause('record-malformed', said('server.text-broken'));
    const parsed = parseRecord(raw);
    if (!parsed.ok) return refuseBecause('record-malformed', parsed.why);
    const record = parsed.value;
    if (record.shelter !== shelter.id) return refuse('record-of-another-shelter');
    const by = people.get(record.by);
    // Who did it and who wrote it down both have to be known, and both need the right to it.
    const writer = record.writtenBy === undefined ? by : people.get(record.writtenBy);
    if (by === undefined || writer === undefined) return refuse('record-by-unknown');
    const touched = record.corrects === undefined ? null : await corrected(record);
    for (const kind of [record.kind, touched?.kind]) {
      if (kind === undefined || !isKind(kind)) continue;
      const barred = [by, writer].find((person) => !mayAppend(person.role, kind));
      if (barred === undefined) continue;
      return refuse('record-not-allowed', { name: barred.name, roles: rolesInWords(whoMay[kind]) });
    }
    if (record.kind === 'document-signed') {
      if (by.licence === '' || writer !== by)
        return refuse('record-not-allowed', { name: by.name, roles: said('server.licensed') });
      const filed = documents.get(keyOf(record.body.document, record.body));
      const why = filed === undefined ? null : unsignable(filed, record.body.confirmed);
      if (why !== null) return refuseBecause('record-not-allowed', why);
    }
    if (record.kind === 'person-described') people.set(record.body.person, record.body);
    if (record.kind === 'protocol-filed') file(record.body.protocol);
    if (record.kind === 'formulary-filed') file(record.body.formulary);
    return record;
  };
}

const keyOf = (kind: 'protocol' | 'formulary', { id, version }: { id: string; version: string }): string =>
  `${kind} ${id}@${version}`;

export const rolesInWords = (roles: readonly Role[]): SayValue => ({
  list: roles.map((role) => said(`parts.role.${role}`)),
});

/** No half characters and no zero characters anywhere: not every store and file can carry them. */
function isWholeThroughout(value: unknown): boolean {
  if (typeof value === 'string') return isWholeText(value) && !value.includes('\u0000');
  if (Array.isArray(value)) return value.every(isWholeThroughout);
  if (typeof value !== 'object' || value === null) return true;
  return Object.entries(value).every(([name, field]) => isWholeThroughout(name) && isWholeThroughout(field));
}
