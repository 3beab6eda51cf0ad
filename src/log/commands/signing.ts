import { contradictions, toConfirm } from '../../core/dosing/before-signing.js';
import type { FormularyDocument } from '../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../core/protocol/document/document.js';
import { limitsOutOfOrder } from '../../core/protocol/document/limits.js';
import { no, type Outcome, ok, type Said, said } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';
import type { KnownPerson, Shelter } from '../views/shelter.js';

/**
 * Why a filed version may not be signed as it is: it contradicts itself, or figures from memory are not confirmed. Null
 * when nothing stands in the way.
 */
export function unsignable(document: ProtocolDocument | FormularyDocument, confirmed: readonly string[]): Said | null {
  const faults = 'products' in document ? contradictions(document) : limitsOutOfOrder(document);
  const [fault] = faults;
  if (fault !== undefined) return said('log.contradicts-itself', { fault });
  const open = 'products' in document ? toConfirm(document).filter((one) => !confirmed.includes(one.key)) : [];
  const [first] = open;
  return first === undefined ? null : said('dose.confirm-first', { count: open.length, first: first.what });
}

/** Somebody who signs, as they are known by name. */
export type Signer = Pick<KnownPerson, 'id' | 'name' | 'role' | 'licence'>;

/** Sign a filed version. Only medical staff with a licence on record may; the signature keeps name and licence as text. */
export function signDocument(
  shelter: Shelter,
  signer: Signer,
  what: Omit<BodyInput<'document-signed'>, 'signer' | 'licence'>,
  /** Instant of the act, UTC ISO text. */
  at: string,
): Outcome<Draft[]> {
  if (signer.role !== 'medical' || signer.licence === '')
    return no('log.needs-licence', { name: { person: signer.id } });
  const filed = what.document === 'protocol' ? shelter.protocols : shelter.formularies;
  const version = filed.find((one) => one.document.id === what.id && one.document.version === what.version);
  if (version === undefined) return no('log.no-such-version', { id: what.id, version: what.version });
  if (version.state === 'signed') return no('log.already-signed', { id: what.id, version: what.version });
  const why = unsignable(version.document, what.confirmed ?? []);
  if (why !== null) return { ok: false, why };
  const body = { ...what, signer: signer.name, licence: signer.licence };
  return ok([draft('document-signed', `document:${what.id}`, body, at)]);
}
