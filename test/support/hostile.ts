import fc from 'fast-check';
import { CalendarDate } from '../../src/core/calendar.js';
import { DeviceId, PersonId, RecordId, ShelterId } from '../../src/core/ids.js';
import type { Role } from '../../src/core/people.js';
import { noHash } from '../../src/log/hash.js';
import type { Kind } from '../../src/log/kinds/index.js';
import type { ReadTable } from '../../src/log/read-rows.js';
import { type Draft, draft, isAnimalRecord, type LogRecord, stamp } from '../../src/log/record.js';
import { settled } from '../../src/log/settled-time.js';
import type { Head, KeptEnvelope, LogStore } from '../../src/log/store.js';
import { effective } from '../../src/log/views/effective.js';
import { foldShelter } from '../../src/log/views/shelter.js';
import { mayAppend } from '../../src/log/who-may.js';
import { settle } from '../../src/store/batch.js';
import { heldIn } from '../../src/store/held.js';
import { tableNames } from '../../src/store/read-tables.js';
import { at } from './log.js';
import { everyKind, oneOf } from './one-of-each.js';
import { shelterLog } from './shelter-log.js';

/** Batches by which somebody could try to change what is not theirs to change, and what must stay as it was. */
const noon = at('2026-03-02', '12:00');
const night = at('2026-03-01', '23:00');

/** Who tries, by role; nobody is above medical staff. */
export const attackers = { volunteer: 'ines', caregiver: 'cara', supervisor: 'sol' } as const;
export type Attacker = keyof typeof attackers;

/** Records that one person puts down, each under its own id. */
function written(drafts: readonly Draft[], by: string, ids: readonly string[], device = 'phone'): LogRecord[] {
  let made = 0;
  return stamp(drafts, {
    shelter: ShelterId.parse('test-shelter'),
    zone: 'UTC',
    by: PersonId.parse(by),
    device: DeviceId.parse(device),
    nextSeq: 1,
    now: noon,
    newId: () => ids[made++] ?? 'no-id',
  });
}

const withdrawing = ({ subject, id }: LogRecord): Draft =>
  draft('record-withdrawn', subject, { reason: 'by the veterinarian' }, noon, id);

/** One record by the veterinarian, at the desk. */
function byVera(id: string, what: Draft): LogRecord {
  const [record] = written([what], 'vera', [id], 'desk');
  if (record === undefined) throw new Error('nothing was written');
  return record;
}

/** The shelter before anything is tried: one record of every kind, and some of them corrected and withdrawn already. */
export const ground: readonly LogRecord[] = (() => {
  const log = shelterLog(2);
  log.add([draft('person-described', 'person:cara', { person: 'cara' as never, role: 'caregiver' }, night)], 'sol');
  const kinds = everyKind.filter((kind) => kind !== 'record-withdrawn');
  const one = written(
    kinds.map((kind) => oneOf(kind)),
    'vera',
    kinds.map((kind) => `each-${kind}`),
    'desk',
  );
  const signed = one.find(({ kind }) => kind === 'document-signed');
  const gone = byVera('order-gone', oneOf('order-written'));
  const kept = byVera('order-kept', oneOf('order-written'));
  const takenBack = byVera('taken-back', withdrawing(kept));
  const corrections = [
    byVera('undone', withdrawing(gone)),
    takenBack,
    byVera('put-back', { ...oneOf('order-written'), corrects: takenBack.id }),
    byVera('signed-again', { ...oneOf('document-signed'), ...(signed && { corrects: signed.id }) }),
    // Corrects what is not here: whoever takes that id must not get hold of it.
    byVera('loose', { ...oneOf('order-written'), corrects: RecordId.parse('not-here') }),
  ];
  return [...log.records, ...one, gone, kept, ...corrections];
})();

/** A log without read tables, which would only take time here: what comes in and what does not, in its places. */
export function bareLog(): LogStore {
  let log: readonly KeptEnvelope[] = [];
  let head: Head = { seq: 0, hash: noHash, receivedAt: null, rowsOn: null, stale: 0 };
  return {
    append: async (batch, receivedAt) => {
      const { appended, fresh } = settle(batch, new Map(log.map((one) => [one.id, one])), head, receivedAt);
      log = [...log, ...fresh];
      const { seq, hash } = fresh.at(-1) ?? head;
      head = { seq, hash, receivedAt, rowsOn: CalendarDate.parse(receivedAt.slice(0, 10)), stale: 0 };
      return appended;
    },
    read: async ({ after = 0, ids, limit } = {}) =>
      log.filter(({ seq, id }) => seq > after && (ids === undefined || ids.includes(id))).slice(0, limit),
    held: async (ask) => heldIn(log, () => false, ask),
    animals: async () => [],
    shelter: async () =>
      foldShelter((log as readonly LogRecord[]).filter((one) => !isAnimalRecord(one)).map((one) => settled(one))),
    unreadable: async () => 0,
    counts: async () => Object.fromEntries(tableNames.map((table) => [table, 0])) as Record<ReadTable, number>,
    upToDate: async () => undefined,
    head: async () => head,
    rows: async () => [],
    rebuild: async () => undefined,
    faults: async () => [],
    close: async () => undefined,
  };
}

/** What the veterinarian records after it. */
const laterKinds = ['order-written', 'variant-switched', 'order-ended', 'animal-weighed', 'document-signed'] as const;
export const later: readonly LogRecord[] = written(
  laterKinds.map((kind) => oneOf(kind)),
  'vera',
  laterKinds.map((kind) => `later-${kind}`),
  'tablet',
);

interface Move {
  readonly kind: Kind;
  readonly id: number | null;
  readonly corrects: number | null;
  readonly about: 'own' | 'target' | 'other';
  readonly shape: 'good' | 'bare' | 'no-body' | 'no-time';
  readonly by: 'self' | 'nobody';
  readonly shelter: 'here' | 'elsewhere';
  /** `told`: as if the veterinarian had told it by telephone. */
  readonly hand: 'own' | 'told';
}

/** Batches by one person: decoys, one id twice, chains and loops of corrections, records of other shelters. */
export function hostileBatches(role: Attacker): fc.Arbitrary<readonly unknown[]> {
  const own = everyKind.filter((kind) => mayAppend(role, kind));
  // The desk may change who is who and what the shelter is; from there on everything is another question.
  const targets = ground.filter(
    ({ kind }) => role !== 'supervisor' || !['person-described', 'shelter-described'].includes(kind),
  );
  const ids = [...targets, ...later].map(({ id, subject }) => ({ id: id as string, subject }));
  const most = 8;
  const pool = [
    ...ids,
    { id: 'not-here', subject: 'animal:kit-1' },
    ...Array.from({ length: most }, (_, index) => ({ id: `try-${index}`, subject: 'animal:kit-1' })),
  ];
  const laterIds = new Set(later.map(({ id }) => id as string));
  // An id that somebody else is going to use cannot be known; one that is used already can.
  const takeable = pool.flatMap(({ id }, index) => (laterIds.has(id) ? [] : [index]));
  const move: fc.Arbitrary<Move> = fc.record({
    kind: fc.oneof(
      { weight: 3, arbitrary: fc.constantFrom<Kind>(...own) },
      { weight: 3, arbitrary: fc.constant<Kind>('record-withdrawn') },
      { weight: 1, arbitrary: fc.constantFrom<Kind>(...everyKind) },
    ),
    id: fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.constantFrom(...takeable) }),
    corrects: fc.option(fc.nat({ max: pool.length - 1 }), { freq: 3 }),
    about: fc.constantFrom('own', 'target', 'target', 'target', 'other'),
    shape: fc.constantFrom('good', 'good', 'good', 'good', 'bare', 'no-body', 'no-time'),
    by: fc.constantFrom('self', 'self', 'self', 'self', 'self', 'nobody'),
    shelter: fc.constantFrom('here', 'here', 'here', 'here', 'here', 'elsewhere'),
    hand: fc.constantFrom('own', 'own', 'own', 'told'),
  });
  return fc.array(move, { minLength: 1, maxLength: most }).map((moves) =>
    moves.map((one, index) => {
      const target = one.corrects === null ? undefined : pool[one.corrects];
      const subject = one.about === 'target' ? target?.subject : one.about === 'other' ? 'animal:kit-2' : undefined;
      const id = (one.id === null ? undefined : pool[one.id]?.id) ?? `try-${index}`;
      const [record] = written([oneOf(one.kind, subject)], one.by === 'self' ? attackers[role] : 'nobody', [id]);
      const known = one.hand === 'told' ? asTold(record, attackers[role]) : record;
      return misshapen({ ...known, ...(target === undefined ? {} : { corrects: target.id }) }, one);
    }),
  );
}

/** In the veterinarian's name, by the word of whoever holds the device that she told it. */
const asTold = (record: LogRecord | undefined, writer: string): Record<string, unknown> => ({
  ...record,
  by: 'vera',
  writtenBy: writer,
  body: { ...record?.body, told: { how: 'telephone', readBack: true, from: '' } },
});

/** The desk may write down an order that was told by telephone: it is new, is known for one, and takes nobody's place. */
const isTold = ({ kind, body }: LogRecord): boolean => kind === 'order-written' && body.told !== null;

function misshapen(record: Record<string, unknown>, { shape, shelter }: Move): unknown {
  if (shape === 'bare') return { id: record.id, kind: record.kind };
  const { body, happenedAt, ...rest } = record;
  return {
    ...rest,
    ...(shelter === 'here' ? {} : { shelter: 'elsewhere' }),
    ...(shape === 'no-body' ? { body: null } : { body }),
    ...(shape === 'no-time' ? {} : { happenedAt }),
  };
}

/** All of a log that a role may not write: which records stand, and what the shelter is by them. */
export function beyond(records: readonly LogRecord[], role: Role): unknown {
  const shelterRecords = records.filter(({ subject }) => !subject.startsWith('animal:'));
  const subjects = new Set(records.map(({ subject }) => subject).filter((subject) => subject.startsWith('animal:')));
  const standing = [
    ...effective(shelterRecords),
    ...[...subjects].flatMap((subject) => effective(records.filter((one) => one.subject === subject))),
  ]
    .filter((one) => !mayAppend(role, one.kind) && !(role === 'supervisor' && isTold(one)))
    .map(({ id, kind, subject, body, by }) => ({ id, kind, subject, body, by }))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const { name, zone, sections, people, protocols, formularies, protocol, formulary, variants, answers, files, lots } =
    foldShelter(shelterRecords);
  const medical = { protocols, formularies, protocol, formulary, variants };
  if (role === 'supervisor') return { standing, medical };
  const received = [...lots.values()].map(({ id, of, lotText, withdrawn }) => ({ id, of, lotText, withdrawn }));
  return { standing, medical, desk: { name, zone, sections, people, answers, files, received } };
}
