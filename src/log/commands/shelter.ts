import { contradictions, toConfirm } from '../../core/dosing/before-signing.js';
import type { FormularyDocument } from '../../core/dosing/formulary.js';
import type { LotId, PersonId, RecordId, SectionId } from '../../core/ids.js';
import type { ProtocolDocument } from '../../core/protocol/document/document.js';
import { limitsOutOfOrder } from '../../core/protocol/document/limits.js';
import { no, type Outcome, ok, type Said, said } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';
import type { KnownPerson, Shelter } from '../views/shelter.js';

/** Everything that decides takes the instant of the act, UTC ISO text. */
type At = string;

export const describeShelter = (body: BodyInput<'shelter-described'>, at: At): Draft[] => [
  draft('shelter-described', 'shelter:self', body, at),
];

export const describeSection = (body: BodyInput<'section-described'> & { section: SectionId }, at: At): Draft[] => [
  draft('section-described', `section:${body.section}`, body, at),
];

export const describePerson = (body: BodyInput<'person-described'> & { person: PersonId }, at: At): Draft[] => [
  draft('person-described', `person:${body.person}`, body, at),
];

export const tellSentAgain = (body: BodyInput<'records-sent-again'>, at: At): Draft[] => [
  draft('records-sent-again', 'shelter:self', body, at),
];

export const fileProtocol = (protocol: BodyInput<'protocol-filed'>['protocol'], at: At): Draft[] => [
  draft('protocol-filed', `document:${protocol.id}`, { protocol }, at),
];

export const fileFormulary = (formulary: BodyInput<'formulary-filed'>['formulary'], at: At): Draft[] => [
  draft('formulary-filed', `document:${formulary.id}`, { formulary }, at),
];

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
  at: At,
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

export const receiveLot = (id: LotId, body: BodyInput<'lot-received'>, at: At): Draft[] => [
  draft('lot-received', `lot:${id}`, body, at),
];

/** Syringes made ready for drawing blood. Says no when they would keep no time at all: a slip of the day or the hour. */
export function prepareSyringes(id: LotId, body: BodyInput<'syringes-prepared'>, at: At): Outcome<Draft[]> {
  if (body.keepsUntil !== null && body.keepsUntil <= at) return no('log.keeps-no-time');
  return ok([draft('syringes-prepared', `lot:${id}`, body, at)]);
}

export const countLot = (id: LotId, body: BodyInput<'lot-counted'>, at: At): Draft[] => [
  draft('lot-counted', `lot:${id}`, body, at),
];

export const withdrawLot = (id: LotId, body: BodyInput<'lot-withdrawn'>, at: At): Draft[] => [
  draft('lot-withdrawn', `lot:${id}`, body, at),
];

export const takeKitsOut = (id: LotId, body: BodyInput<'kits-out-of-cold'>, at: At): Draft[] => [
  draft('kits-out-of-cold', `lot:${id}`, body, at),
];

export const takeFlag = (flag: string, at: At): Draft[] => [draft('flag-taken', `flag:${flag}`, { flag }, at)];

/** A flag goes only with an answer in words. */
export function answerFlag(flag: string, body: Omit<BodyInput<'flag-answered'>, 'flag'>, at: At): Outcome<Draft[]> {
  if (body.note.trim() === '') return no('log.answer-needs-words');
  return ok([draft('flag-answered', `flag:${flag}`, { flag, ...body }, at)]);
}

type Withdrawn = BodyInput<'record-withdrawn'>;

/** Undo by a new record: the old one stays visible and counts no longer. `why` is a reason of the list, or words. */
export function withdrawRecord(
  record: { id: RecordId; subject: string },
  why: NonNullable<Withdrawn['why']> | { readonly reason: string },
  at: At,
): Outcome<Draft[]> {
  if (typeof why === 'string') return ok([draft('record-withdrawn', record.subject, { why }, at, record.id)]);
  if (why.reason.trim() === '') return no('log.withdrawal-needs-reason');
  return ok([draft('record-withdrawn', record.subject, { reason: why.reason }, at, record.id)]);
}
