import { readChip } from '../core/chip/read-chip.js';
import type { FormularyDocument } from '../core/dosing/formulary.js';
import type { PersonId, RecordId } from '../core/ids.js';
import type { Names } from '../core/people.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import { isAny, type Standing, standingsOf } from '../core/rights/standing.js';
import { type Said, said } from '../core/said.js';
import { uncarriable } from './carried.js';
import type { unsignable } from './commands/signing.js';
import type { Kind } from './kinds/index.js';
import { type Envelope, isKind, type LogRecord, parseRecord } from './record.js';
import { subjectNamed } from './subject-named.js';
import { type Correcting, mayReplace, mayReplaceOrder, pathOf, rootOf } from './views/effective.js';
import type { Person, Shelter } from './views/shelter.js';
import { mayAppend, mayAppendAll, mayHear, mayTell, whoMayInWords } from './who-may.js';

export type WhyNot =
  | 'record-malformed'
  | 'record-of-another-shelter'
  | 'record-by-unknown'
  | 'record-not-allowed'
  | 'record-kept-apart'
  | 'record-hand-away'
  | 'record-not-fresh'
  | 'record-corrects-unknown';

export type Admitted =
  | { readonly ok: true; readonly record: LogRecord }
  | { readonly ok: false; readonly code: WhyNot; readonly why: Said };

/**
 * What else a program asks of who wrote a record down: the server, of who was signed in. `kinds` are those that the record
 * speaks about, its own and all that it corrects. Null when nothing stands against it.
 */
export type AskHand = (
  record: LogRecord,
  kinds: readonly Kind[],
) => { readonly code: WhyNot; readonly why: Said } | null;

/** Finds records of the log by their ids. */
export type Find = (ids: readonly RecordId[]) => Promise<readonly Envelope[]>;

/**
 * The one way into the log, for every program that takes records from outside: whether each record of a batch may come
 * in, asked one after the other. A fact is never refused for looking wrong: turned away is only what cannot be read,
 * belongs elsewhere, or was done by somebody who may not; signing what contradicts itself, or figures from memory
 * unconfirmed, is such an act.
 *
 * What is in the log counts before anything in the batch, and of the batch only what was admitted and is new: a record
 * that is turned away, or comes under an id that is taken, speaks for nobody. Who signs is asked of the private side
 * (`signers`: everybody's name and licence). `atSigning` is what `asksAtSigning` answered to the same batch, for whoever
 * cannot wait for it any more: a browser's transaction ends meanwhile. `askHand` is asked last.
 */
export async function admission(
  shelter: Shelter,
  signers: Names,
  batch: readonly unknown[],
  find: Find,
  atSigning?: AtSigning | null,
  askHand?: AskHand,
): Promise<(raw: unknown) => Admitted> {
  const askedAtSigning = atSigning === undefined ? await asksAtSigning(batch) : atSigning;
  const there = await recordsNamed(batch, find);
  const ground = groundOf(shelter);
  const fresh = new Map<RecordId, LogRecord>();
  const look: Look = (id) => there.get(id) ?? fresh.get(id);

  return (raw) => {
    const unfit = uncarriable(raw);
    if (unfit !== null) return turnAway('record-malformed', unfit);
    const parsed = parseRecord(raw);
    if (!parsed.ok) return turnAway('record-malformed', parsed.why);
    const record = parsed.value;
    // Sent again, or a second saying under one id: the store tells which, and neither changes anything.
    if (look(record.id) !== undefined) return { ok: true, record };
    if ((subjectNamed(record) ?? record.subject) !== record.subject) {
      return turnAway('record-malformed', said('log.subject-elsewhere'));
    }
    if (record.shelter !== shelter.id) return turnAs('record-of-another-shelter');
    const refused =
      readsAsChip(record) ??
      mayBeDemo(record, shelter) ??
      mayCorrect(record, look) ??
      mayRecord(record, ground, signers, look) ??
      maySign(record, ground, signers, look, askedAtSigning) ??
      mayOrder(record) ??
      mayFollowUp(record, ground) ??
      mayLeave(record, ground);
    if (refused !== null) return refused;
    const hand = askHand?.(record, touched(record, look).kinds) ?? null;
    if (hand !== null) return turnAway(hand.code, hand.why);
    fresh.set(record.id, record);
    take(record, ground);
    return { ok: true, record };
  };
}

type Refused = Extract<Admitted, { ok: false }>;
type Look = (id: RecordId) => Correcting | undefined;

/** Each by its whole key: the web app brings the messages of the keys that stand in a file. */
const sentences = {
  'record-of-another-shelter': 'server.problem.record-of-another-shelter',
  'record-by-unknown': 'server.problem.record-by-unknown',
  'record-corrects-unknown': 'server.problem.record-corrects-unknown',
} as const;

/** What needs no more words than its code's own. */
const turnAs = (code: keyof typeof sentences): Refused => turnAway(code, said(sentences[code]));
const turnAway = (code: WhyNot, why: Said): Refused => ({ ok: false, code, why });

/** Whoever answers for a record: who did it and who wrote it down. Each must be known, and allowed to record it. */
const answerable = ({ by, writtenBy }: LogRecord): readonly PersonId[] =>
  writtenBy === undefined ? [by] : [by, writtenBy];

/** A number that was read in an animal or put into one is whole, as the reader of the house gives it, and of its kind. */
function readsAsChip({ kind, body }: LogRecord): Refused | null {
  const scanned = kind === 'chip-scanned' && body.target === 'animal' ? body.found : null;
  const code = kind === 'chip-implanted' ? body.code : scanned?.code;
  if (code === undefined) return null;
  const reading = readChip(code);
  if (!reading.ok) return turnAway('record-malformed', reading.why);
  const { code: whole, class: is } = reading.value;
  if (whole !== code) return turnAway('record-malformed', said('log.chip-as-read', { chip: code, whole }));
  if (scanned == null || scanned.class === is) return null;
  return turnAway('record-malformed', said('log.chip-class', { chip: code, is, said: scanned.class }));
}

/** The invented shelter is made whole: no record turns a real one, where signing in proves who one is, into it. */
function mayBeDemo({ kind, body }: LogRecord, { id, demo }: Shelter): Refused | null {
  if (kind !== 'shelter-described' || id === null || body.demo === demo) return null;
  return turnAway('record-not-allowed', said('log.demo-stays'));
}

/** A correction is about what it names, and of a kind that can take its place. */
function mayCorrect(record: LogRecord, look: Look): Refused | null {
  const target = record.corrects === undefined ? undefined : look(record.corrects);
  if (target === undefined) return null;
  if (target.subject !== record.subject) return turnAway('record-malformed', said('log.corrects-elsewhere'));
  const root = rootOf<Correcting>(target, look);
  if (mayReplace(record, root)) return null;
  if (!mayReplaceOrder(record, root)) return turnAway('record-not-allowed', said('log.corrects-order-of-another'));
  return turnAway('record-malformed', said('log.corrects-other-kind'));
}

function mayRecord(record: LogRecord, { people }: Ground, signers: Names, look: Look): Refused | null {
  const { kinds, known } = touched(record, look);
  for (const id of answerable(record)) {
    const person = people.get(id);
    if (person === undefined) return turnAs('record-by-unknown');
    const has = standingsOf(person.role, signers.get(id)?.licence ?? '');
    for (const kind of kinds) {
      if (!mayAppend(has, kind) && !byTelephone(record, id, has)) return notAllowed(id, kind);
    }
    // Taking back what is not here, or what this program cannot read, could take back anything.
    if (record.kind === 'record-withdrawn' && !known && !mayAppendAll(has)) {
      return turnAs('record-corrects-unknown');
    }
  }
  return null;
}

/**
 * What is told by telephone has two people, one who may say it and one who may write it down; neither has to be able to
 * do the other's part. It puts nothing on record in the place of anything else.
 */
function byTelephone(record: LogRecord, id: PersonId, has: readonly Standing[]): boolean {
  const { kind, by, writtenBy, corrects } = record;
  if (corrects !== undefined || writtenBy === undefined || by === writtenBy) return false;
  if (!('told' in record.body) || typeof record.body.told !== 'object' || record.body.told === null) return false;
  if (id === writtenBy) return isAny(mayHear[kind] ?? [], has);
  return kind === 'treatment-given' && !record.body.here && isAny(mayTell[kind] ?? [], has);
}

/**
 * An order is a veterinarian's: written by their own hand, or told by telephone under their name and written down
 * by whoever heard it, which only they countersign.
 */
function mayOrder(record: LogRecord): Refused | null {
  const { kind, by, writtenBy, body } = record;
  if (kind !== 'order-written' && kind !== 'order-countersigned') return null;
  if (kind === 'order-written' && body.order.vet !== by) {
    return turnAway('record-not-allowed', said('log.order-of-another', { name: { person: by } }));
  }
  const byOwnHand = writtenBy === undefined || writtenBy === by;
  if (kind === 'order-countersigned') {
    return byOwnHand ? null : turnAway('record-not-allowed', said('log.countersigns-for-other'));
  }
  if (body.told === null) return byOwnHand ? null : turnAway('record-not-allowed', said('log.order-not-told'));
  return byOwnHand ? turnAway('record-malformed', said('log.told-to-nobody')) : null;
}

/** What is said about a reactive test is the word of somebody who is, or was when it was said, of the medical team. */
function mayFollowUp(record: LogRecord, { people }: Ground): Refused | null {
  if (record.kind !== 'test-followed-up') return null;
  const { person } = record.body;
  if (people.get(person)?.wasMedical === true) return null;
  return turnAway('record-not-allowed', said('log.follow-up-person', { name: { person } }));
}

/** So is the word on which an animal leaves with something open; nobody's word is a fact, and flagged. */
function mayLeave(record: LogRecord, { people }: Ground): Refused | null {
  if (record.kind !== 'animal-left' || record.body.word === null) return null;
  const { word } = record.body;
  if (people.get(word)?.wasMedical === true) return null;
  return turnAway('record-not-allowed', said('log.leave-word-person', { name: { person: word } }));
}

const notAllowed = (person: PersonId, kind: Kind): Refused =>
  turnAway(
    'record-not-allowed',
    said('server.problem.record-not-allowed', { name: { person }, roles: whoMayInWords(kind) }),
  );

/** The kinds that a record speaks about: its own, and all that it corrects up to the first; `known` when all are here. */
function touched(record: LogRecord, look: Look): { readonly kinds: readonly Kind[]; readonly known: boolean } {
  const path = pathOf<Correcting>(record, look);
  const kinds = path.map(({ kind }) => kind).filter(isKind);
  const last = path.at(-1)?.corrects;
  const ends = last === undefined || path.some(({ id }) => id === last);
  return { kinds, known: record.corrects !== undefined && ends && kinds.length === path.length };
}

/** What a signature is asked of the document it signs. */
export type AtSigning = typeof unsignable;

/** It looks through whole documents: fetched by who takes a signature in, not by every phone at its start. */
export async function asksAtSigning(batch: readonly unknown[]): Promise<AtSigning | null> {
  return batch.some(isSignature) ? (await import('./commands/signing.js')).unsignable : null;
}

const isSignature = (raw: unknown): boolean =>
  typeof raw === 'object' && raw !== null && 'kind' in raw && raw.kind === 'document-signed';

function maySign(
  record: LogRecord,
  { documents }: Ground,
  signers: Names,
  look: Look,
  whyNot: AtSigning | null,
): Refused | null {
  const { kinds } = touched(record, look);
  const retires = record.kind === 'document-retired' && record.corrects === undefined;
  if (retires && record.body.licence !== undefined && record.body.licence !== signers.get(record.by)?.licence) {
    const { licence } = record.body;
    return turnAway('record-not-allowed', said('log.retires-under-other', { name: { person: record.by }, licence }));
  }
  // Taking a signature back needs what giving it needs, and so does bringing back what was retired.
  if (!kinds.includes('document-signed') && (retires || !kinds.includes('document-retired'))) return null;
  for (const one of answerable(record)) {
    if ((signers.get(one)?.licence ?? '') !== '') continue;
    const values = { name: { person: one }, roles: said('server.licensed') };
    return turnAway('record-not-allowed', said('server.problem.record-not-allowed', values));
  }
  if (record.kind !== 'document-signed') return null;
  const { document, id, version, confirmed, signer, licence } = record.body;
  // Nobody signs in another's name, nor under another's licence.
  const own = signers.get(record.by);
  if (own?.name !== signer || own.licence !== licence) {
    const values = { name: { person: record.by }, signer, licence };
    return turnAway('record-not-allowed', said('log.signer-differs', values));
  }
  const filed = documents.get(keyOf(document, record.body));
  if (filed === undefined || whyNot === null) {
    return turnAway('record-not-allowed', said('log.no-such-version', { id, version }));
  }
  const why = whyNot(filed, confirmed);
  return why === null ? null : turnAway('record-not-allowed', why);
}

/** Who and what is there to record by: the log's own, and what the batch has brought so far. */
interface Ground {
  /** `wasMedical`: is of the medical team, or was; what was written without the network comes in later. */
  readonly people: Map<PersonId, Pick<Person, 'role'> & { readonly wasMedical: boolean }>;
  readonly documents: Map<string, ProtocolDocument | FormularyDocument>;
}

function groundOf(shelter: Shelter): Ground {
  const ground: Ground = { people: new Map(), documents: new Map() };
  for (const { id, role, roles } of shelter.people) {
    ground.people.set(id, { role, wasMedical: roles.some((one) => one.role === 'medical') });
  }
  for (const { document } of [...shelter.protocols, ...shelter.formularies]) file(document, ground);
  return ground;
}

function take(record: LogRecord, ground: Ground): void {
  if (record.kind === 'person-described') {
    const { person, role } = record.body;
    const wasMedical = role === 'medical' || ground.people.get(person)?.wasMedical === true;
    ground.people.set(person, { role, wasMedical });
  }
  if (record.kind === 'protocol-filed') file(record.body.protocol, ground);
  if (record.kind === 'formulary-filed') file(record.body.formulary, ground);
}

function file(document: ProtocolDocument | FormularyDocument, { documents }: Ground): void {
  const key = keyOf('products' in document ? 'formulary' : 'protocol', document);
  if (!documents.has(key)) documents.set(key, document);
}

const keyOf = (kind: 'protocol' | 'formulary', { id, version }: { id: string; version: string }): string =>
  `${kind} ${id}@${version}`;

/** What the log has under the ids of a batch, and of all that these correct, up to the first. */
async function recordsNamed(batch: readonly unknown[], find: Find): Promise<ReadonlyMap<RecordId, Envelope>> {
  const there = new Map<RecordId, Envelope>();
  const asked = new Set<string>();
  let open = batch.flatMap(idsOf);
  while (open.length > 0) {
    for (const id of open) asked.add(id);
    const records = await find([...new Set(open)] as RecordId[]);
    for (const record of records) there.set(record.id, record);
    open = records.flatMap(({ corrects }) => (corrects === undefined || asked.has(corrects) ? [] : [corrects]));
  }
  return there;
}

function idsOf(raw: unknown): string[] {
  if (typeof raw !== 'object' || raw === null) return [];
  const { id, corrects } = raw as { readonly id?: unknown; readonly corrects?: unknown };
  return [id, corrects].filter((one) => typeof one === 'string');
}
