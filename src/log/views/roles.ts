import { derived, listOf } from '../../core/derived.js';
import type { PersonId, RecordId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import type { LogRecord } from '../record.js';
import { effective, isLater } from './effective.js';

/** That somebody who had one role was given another, by a description or because one was taken back. */
export interface RoleChange {
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

/** Every change of a role, whatever was taken back since, oldest first for each person. */
export function roleChanges(records: readonly LogRecord[]): RoleChange[] {
  const bySubject = new Map<string, LogRecord[]>();
  for (const record of records) {
    if (!record.subject.startsWith('person:')) continue;
    const own = bySubject.get(record.subject);
    if (own === undefined) bySubject.set(record.subject, [record]);
    else own.push(record);
  }
  const changes = [...bySubject.values()].flatMap((own) => (own.length < 2 ? [] : changesOf(listOf(own))));
  return changes.length === 0
    ? changes
    : changes.map((change) => ({ ...change, answered: answersIn(records, change) }));
}

/** Descriptions of one person in the order in which they were said: what each made of the role. */
const changesOf = derived((own: readonly LogRecord[]): readonly RoleChange[] => {
  const order = own.toSorted((a, b) => (isLater(a, b) ? 1 : -1));
  const changes: RoleChange[] = [];
  let before = roleAfter(order.slice(0, 1));
  for (const [index, record] of order.entries()) {
    const after = roleAfter(order.slice(0, index + 1));
    if (before !== null && after !== null && before.role !== after.role) {
      const { id, recordedAt: at, by, writtenBy } = record;
      const last = changes.at(-1);
      if (last !== undefined) changes.splice(-1, 1, { ...last, until: at });
      const who = { by, ...(writtenBy === undefined ? {} : { writtenBy }) };
      const { person, role: to } = after;
      changes.push({ person, from: before.role, to, record: id, at, ...who, until: null, answered: 0 });
    }
    before = after ?? before;
  }
  return changes;
});

function roleAfter(order: readonly LogRecord[]): { readonly person: PersonId; readonly role: Role } | null {
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
 * of the medical team. It takes the flag on and closes nothing.
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
  if (hands.includes(change.person)) return true;
  return [change.by, change.writtenBy ?? change.by].some((one) => hands.includes(one) && !isMedical(one));
}
