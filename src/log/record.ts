import { z } from 'zod';
import { InstantText, ZoneName } from '../core/calendar.js';
import { DeviceId, PersonId, RecordId, ShelterId } from '../core/ids.js';
import { secondsUntil } from '../core/point-of-care/kit.js';
import { no, type Outcome, ok } from '../core/said.js';
import { clockFor, DeviceClock } from './device-clock.js';
import { type BodyInput, type BodyOf, currentVersion, type Kind, kinds, upcast } from './kinds/index.js';

/**
 * The envelope of every record. A record is a fact in the words of the people who did it: it is never changed and
 * never removed. A correction is a new record on the same subject whose `corrects` names the old one; a record entered
 * in error is answered by a `record-withdrawn`. Both stay visible.
 */
export const Envelope = z.object({
  /** UUIDv7, made by the device; appending the same id again changes nothing. */
  id: RecordId,
  shelter: ShelterId,
  /** What the record is about, as `type:id`; ids are as long as src/core/ids.ts lets them be, keys of flags longer. */
  subject: z.string().regex(/^((animal|lot|round|section|person|document|shelter|file):.{1,80}|flag:.{1,200})$/),
  kind: z.string(),
  /** Version of the body's shape; older ones are read through upcasts. */
  v: z.number().int().min(1),
  body: z.unknown(),
  /** When it happened in the world. */
  happenedAt: InstantText,
  /** The shelter's zone at that time. */
  zone: ZoneName,
  /** When the device wrote it down. */
  recordedAt: InstantText,
  /** Who did it, and with whom. */
  by: PersonId,
  with: PersonId.optional(),
  /** Who held the device, when that was somebody else: a sheet of paper is keyed in at the desk afterwards. */
  writtenBy: PersonId.optional(),
  device: DeviceId,
  /** Counts up by one on each device, so that a hole shows a lost record. */
  deviceSeq: z.number().int().min(1),
  corrects: RecordId.optional(),
  /** How far the device's clock was off when it last asked; absent when that is not known, or a person told the time. */
  clock: DeviceClock.optional(),
});
export type Envelope = z.infer<typeof Envelope>;

/** A record whose body is of its kind's shape; a discriminated union over `kind` when K is left out. */
export type LogRecord<K extends Kind = Kind> = {
  [P in K]: Omit<Envelope, 'kind' | 'body'> & { readonly kind: P; readonly body: BodyOf<P> } & Kept & Settled;
}[K];

/** What the server adds when it keeps a record; absent on a device until the record has been sent. */
interface Kept {
  /** Position in the shelter's log, from 1 without gaps. */
  readonly seq?: number;
  /** SHA-256 over the previous hash and this record, hex. */
  readonly hash?: string;
  readonly receivedAt?: string;
  /** How far the server's clock lay behind its own log when it came in (arrival.ts); absent when it did not. */
  readonly serverBehind_ms?: number;
}

/** What the folds add where a record's own times cannot be true (settled-time.ts): those times, and what settled them. */
interface Settled {
  readonly said?: {
    readonly happenedAt: string;
    readonly recordedAt: string;
    readonly clock?: DeviceClock;
    readonly by: 'clock' | 'arrival';
  };
}

/** Something to be recorded, before the device has put its envelope on. */
export interface Draft<K extends Kind = Kind> {
  readonly kind: K;
  readonly subject: string;
  readonly body: BodyInput<K>;
  readonly happenedAt: string;
  readonly corrects?: RecordId;
  /** Who did it, when that is not the one who records; nobody is then taken to have been there unless `with` says so. */
  readonly by?: PersonId;
  /** The second person, when it is not the partner of the one who records. */
  readonly with?: PersonId;
}

export const draft = <K extends Kind>(
  kind: K,
  subject: string,
  body: BodyInput<K>,
  happenedAt: string,
  corrects?: RecordId,
): Draft<K> =>
  corrects === undefined ? { kind, subject, body, happenedAt } : { kind, subject, body, happenedAt, corrects };

/**
 * Read a record from the wire or a store.
 * Returns the record with its body brought to the current version, or the sentence that says what is malformed.
 */
export function parseRecord(raw: unknown): Outcome<LogRecord> {
  const envelope = Envelope.safeParse(raw);
  if (!envelope.success) return no('log.malformed', { detail: firstIssue(envelope.error) });
  const kind = envelope.data.kind;
  if (!isKind(kind)) return no('log.unknown-kind', { kind });
  const lifted = upcast(kind, envelope.data.v, envelope.data.body);
  if (!lifted.ok) return lifted;
  const body = kinds[kind].safeParse(lifted.value);
  if (!body.success) return no('log.malformed-body', { kind, detail: firstIssue(body.error) });
  const flag = (body.data as { readonly flag?: unknown }).flag;
  const isAnswer = kind === 'flag-taken' || kind === 'flag-answered';
  if (isAnswer && envelope.data.subject !== `flag:${flag}`) return no('log.flag-elsewhere');
  // The union over kinds cannot be rebuilt by the compiler from a kind known only at run time.
  return ok({
    ...keptOf(raw as object),
    ...envelope.data,
    v: currentVersion(kind),
    kind,
    body: body.data,
  } as LogRecord);
}

export const isKind = (kind: string): kind is Kind => Object.hasOwn(kinds, kind);

/** All that the server added, or nothing of it where something is no place, hash or time. */
function keptOf(raw: object): Kept {
  const { seq, hash, receivedAt, serverBehind_ms } = raw as Readonly<Record<string, unknown>>;
  if (!isOrAbsent(isWhole, seq) || !isOrAbsent(isWhole, serverBehind_ms)) return {};
  if (!isOrAbsent(isText, hash) || !isOrAbsent(isText, receivedAt)) return {};
  return {
    ...(seq === undefined ? {} : { seq }),
    ...(hash === undefined ? {} : { hash }),
    ...(receivedAt === undefined ? {} : { receivedAt }),
    ...(serverBehind_ms === undefined ? {} : { serverBehind_ms }),
  };
}

const isWhole = (value: unknown): value is number => Number.isSafeInteger(value);
const isText = (value: unknown): value is string => typeof value === 'string';
const isOrAbsent = <T>(is: (value: unknown) => value is T, value: unknown): value is T | undefined =>
  value === undefined || is(value);

function firstIssue(error: z.ZodError): string {
  const issue = error.issues[0];
  if (issue === undefined) return '';
  const path = issue.path.map(String).join('.');
  return path === '' ? issue.message : `${path}: ${issue.message}`;
}

/** What a device knows when it writes records down. */
export interface Stamp {
  readonly shelter: ShelterId;
  readonly zone: string;
  /** Who holds the device. */
  readonly by: PersonId;
  readonly with?: PersonId | undefined;
  readonly device: DeviceId;
  /** Number of the next record of this device. */
  readonly nextSeq: number;
  /** Instant of writing down, UTC ISO text. */
  readonly now: string;
  /** What this device knows about its own clock. */
  readonly clock?: DeviceClock | null;
  /** Makes a UUIDv7. */
  readonly newId: () => string;
}

/**
 * Put the envelope on drafts, in order. Bodies are completed with their defaults.
 * Throws only when a draft does not fit its own kind, which is a broken invariant of the caller.
 */
export function stamp(drafts: readonly Draft[], context: Stamp): LogRecord[] {
  return drafts.map((one, index) => {
    const by = one.by ?? context.by;
    const partner = one.by === undefined ? (one.with ?? context.with) : one.with;
    const clock = clockFor(context.clock ?? null, one.happenedAt, context.now);
    const raw = {
      id: context.newId(),
      shelter: context.shelter,
      subject: one.subject,
      kind: one.kind,
      v: currentVersion(one.kind),
      body: one.body,
      happenedAt: one.happenedAt,
      zone: context.zone,
      recordedAt: context.now,
      by,
      ...(partner === undefined || partner === by ? {} : { with: partner }),
      ...(by === context.by ? {} : { writtenBy: context.by }),
      device: context.device,
      deviceSeq: context.nextSeq + index,
      ...(one.corrects === undefined ? {} : { corrects: one.corrects }),
      ...(clock === undefined ? {} : { clock }),
    };
    const parsed = parseRecord(raw);
    if (!parsed.ok) throw new Error(`draft ${one.kind} is malformed: ${JSON.stringify(parsed.why)}`);
    return parsed.value;
  });
}

/** Seconds between happening and writing down from which a record was not made with the device in the hand; ours. */
const later_s = 5 * 60;
export const writtenLater = ({ happenedAt, recordedAt }: Pick<Envelope, 'happenedAt' | 'recordedAt'>): boolean =>
  secondsUntil(happenedAt, recordedAt) > later_s;

type SubjectType = 'animal' | 'lot' | 'round' | 'section' | 'person' | 'document' | 'shelter' | 'file' | 'flag';

/** Subject of a record in its two parts. */
export function subjectOf(record: { readonly subject: string }): { type: SubjectType; id: string } {
  const colon = record.subject.indexOf(':');
  return { type: record.subject.slice(0, colon) as SubjectType, id: record.subject.slice(colon + 1) };
}

export const isAnimalRecord = (record: { readonly subject: string }): boolean => record.subject.startsWith('animal:');
