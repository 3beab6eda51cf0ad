import type { LotId, PersonId, RecordId, SectionId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';

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
