import { derived, listOf } from '../../core/derived.js';
import type { PersonId, RecordId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import type { BodyOf } from '../kinds/index.js';
import type { LogRecord } from '../record.js';
import { byOneHand, effective, isLater } from './effective.js';

/**
 * That somebody who had one role was given another, by a description or because one was taken back; or came to the medical
 * team, left the shelter out of it, or came back.
 */
export interface RoleChange {
  readonly what: 'role' | 'joined' | 'left' | 'returned';
  readonly person: PersonId;
  readonly from: Role;
  readonly to: Role;
  readonly record: RecordId;
  readonly at: string;
  readonly by: PersonId;
  readonly writtenBy?: PersonId;
  /** When the next change took its place; null while it stands. */
  readonly until: string | null;
  /** Flags that the person answered in that time. */
  readonly answered: number;
}

/** The key of its flag, whose answer is not the word of those whom it is about (`isOwnWord`). */
export const roleFlagKey = ({ record }: Pick<RoleChange, 'record'>): string => `role-changed:${record}`;

/** Every change of a role and of who is of the medical team, whatever was taken back since, oldest first for each person. */
export function roleChanges(records: readonly LogRecord[]): RoleChange[] {
  const bySubject = new Map<string, LogRecord[]>();
  for (const record of records) {
    if (!record.subject.startsWith('person:')) continue;
    const own = bySubject.get(record.subject);
    if (own === undefined) bySubject.set(record.subject, [record]);
    else own.push(record);
  }
  const changes = [...bySubject.values()].flatMap((own) => changesOf(listOf(own)));
  const all = changes.some(({ what }) => what === 'joined') ? [...bySubject.values()].flat() : [];
  const first = new Set(all.length === 0 ? [] : firstOfTeam(all));
  return changes
    .filter(({ what, record }) => what !== 'joined' || !first.has(record))
    .map((change) => ({ ...change, answered: answersIn(records, change) }));
}

/** Descriptions of one person in the order in which they were said: what each made of the role. */
const changesOf = derived((own: readonly LogRecord[]): readonly RoleChange[] => {
  const order = own.toSorted((a, b) => (isLater(a, b) ? 1 : -1));
  const changes: RoleChange[] = [];
  let before: Had | null = null;
  for (const [index, record] of order.entries()) {
    const after: Had | null = roleAfter(order.slice(0, index + 1)) ?? withoutRole(before);
    const what = changeBetween(before, after);
    if (after !== null && what !== null) {
      const { id, recordedAt: at, by, writtenBy } = record;
      const last = changes.at(-1);
      if (last !== undefined) changes.splice(-1, 1, { ...last, until: at });
      const who = { by, ...(writtenBy === undefined ? {} : { writtenBy }) };
      const { person, role: to } = after;
      const from = before?.role ?? to;
      changes.push({ what, person, from, to, record: id, at, ...who, until: null, answered: 0 });
    }
    before = after;
  }
  return changes;
});

type Had = Pick<BodyOf<'person-described'>, 'person' | 'role' | 'active'>;

/** Whoever has no description any more does not work here, as far as anybody can tell. */
const withoutRole = (had: Had | null): Had | null => (had === null ? null : { ...had, active: false });

function changeBetween(before: Had | null, after: Had | null): RoleChange['what'] | null {
  if (after === null) return null;
  const { role, active } = after;
  if (before === null) return role === 'medical' && active ? 'joined' : null;
  if (before.role !== role) return 'role';
  if (role !== 'medical' || before.active === active) return null;
  return active ? 'returned' : 'left';
}

/**
 * The first of the medical team, and those described in one go with them, when a shelter is set up: one after the other
 * in the log, by one hand, on one device, at one instant.
 */
function firstOfTeam(descriptions: readonly LogRecord[]): RecordId[] {
  const order = descriptions.toSorted((a, b) => (isLater(a, b) ? 1 : -1));
  const start = order.findIndex(
    ({ kind, body }) => kind === 'person-described' && body.role === 'medical' && body.active,
  );
  const first = order[start];
  if (first === undefined) return [];
  const rest = order.slice(start);
  const end = rest.findIndex((one, index) => !isOneGo(first, one, index));
  return rest.slice(0, end < 0 ? undefined : end).map(({ id }) => id);
}

const isOneGo = (first: LogRecord, one: LogRecord, index: number): boolean =>
  one.recordedAt === first.recordedAt &&
  one.device === first.device &&
  byOneHand([first, one]) &&
  (first.seq === undefined || one.seq === first.seq + index);

function roleAfter(order: readonly LogRecord[]): Had | null {
  const last = effective(order).findLast((record) => record.kind === 'person-described');
  return last?.kind === 'person-described' ? last.body : null;
}

const answersIn = (records: readonly LogRecord[], { person, at, until }: RoleChange): number =>
  records.filter(
    ({ kind, by, recordedAt }) =>
      kind === 'flag-answered' && by === person && recordedAt >= at && (until === null || recordedAt < until),
  ).length;

/**
 * Whether an answer is that of somebody whom a change of role is about: who was given the role, or gave it without being
 * of the medical team. It takes the flag on and closes nothing. Whoever was said to be gone gained nothing by it.
 */
export function isOwnWord(
  changes: readonly RoleChange[],
  flag: string,
  { by, writtenBy }: Pick<LogRecord, 'by' | 'writtenBy'>,
  isMedical: (person: PersonId) => boolean,
): boolean {
  const change = changes.find((one) => roleFlagKey(one) === flag);
  if (change === undefined) return false;
  const hands = [by, writtenBy ?? by];
  if (change.what !== 'left' && hands.includes(change.person)) return true;
  return [change.by, change.writtenBy ?? change.by].some((one) => hands.includes(one) && !isMedical(one));
}
