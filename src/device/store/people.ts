import type { PersonId } from '../../core/ids.js';
import { type Names, noNames } from '../../core/people.js';
import { no, type Outcome, ok, type Said } from '../../core/said.js';
import type { GivenName, PrivateChange } from '../../log/private-side.js';
import { type Db, readMeta, type WaitingChange, writeMeta } from '../db.js';
import { type Watched, watched } from '../snapshot.js';

/** Whom this device knows by name: the server's list, taken whole, and what was changed here since. */
export interface PeopleHere {
  readonly names: Watched<Names>;
  readonly waiting: Watched<readonly WaitingChange[]>;
  /** Read both from the device's database, at the start and when another tab has written them. */
  readonly reread: () => Promise<void>;
  /** Keep a change until the server has it. Answers `ok` only after the device's database has confirmed. */
  readonly change: (change: PrivateChange, by: PersonId) => Promise<Outcome<null>>;
  /** Take the server's list in the place of the one before. */
  readonly take: (list: readonly GivenName[], tag: string) => Promise<void>;
  readonly tag: () => Promise<string>;
  /** The server has kept this one, or will not have it. */
  readonly settle: (one: WaitingChange, why: Said | null) => Promise<void>;
  /** Forget a change that the server will not have. */
  readonly drop: (id: PersonId) => Promise<void>;
  /** Told when this tab has written something. */
  readonly onKept: (tell: () => void) => void;
}

const tagKey = 'people-tag';

export function makePeople(db: Db): PeopleHere {
  const names = watched<Names>(noNames);
  const waiting = watched<readonly WaitingChange[]>([]);
  const listeners = new Set<() => void>();

  async function reread(): Promise<void> {
    const [list, changes] = await Promise.all([db.names.toArray(), db.changes.toArray()]);
    waiting.set(changes);
    names.set(namesHere(list, changes));
  }

  async function kept(write: () => Promise<unknown>): Promise<void> {
    await db.transaction('rw', db.names, db.changes, db.meta, write);
    await reread();
    for (const tell of listeners) tell();
  }

  return {
    names,
    waiting,
    reread,
    change: async (change, by) => {
      try {
        await kept(async () => {
          const before = await db.changes.get(change.id);
          const whole = { ...before?.change, ...change };
          await db.changes.put({ id: change.id, change: whole, by, made: (before?.made ?? 0) + 1, why: null });
        });
        return ok(null);
      } catch (error) {
        return no('parts.not-saved', { detail: error instanceof Error ? error.message : String(error) });
      }
    },
    take: (list, tag) =>
      kept(async () => {
        await db.names.clear();
        await db.names.bulkPut([...list]);
        await writeMeta(db, tagKey, tag);
      }),
    tag: async () => String((await readMeta(db, tagKey)) ?? ''),
    settle: (one, why) =>
      kept(async () => {
        const now = await db.changes.get(one.id);
        if (now?.made !== one.made) return;
        if (why === null) {
          // Until the list comes again, whole, what was sent stands in it.
          const names = namesHere(await db.names.toArray(), [one]).get(one.id);
          await (names === undefined ? db.names.delete(one.id) : db.names.put({ id: one.id, ...names }));
          await db.changes.delete(one.id);
          await db.meta.delete(tagKey);
        } else await db.changes.put({ ...now, why });
      }),
    drop: (id) => kept(() => db.changes.delete(id)),
    onKept: (tell) => listeners.add(tell),
  };
}

function namesHere(list: readonly GivenName[], changes: readonly WaitingChange[]): Names {
  const names = new Map(list.map(({ id, name, licence }) => [id as string, { name, licence }]));
  for (const { id, change, why } of changes) {
    if (why !== null) continue;
    const before = names.get(id);
    const name = change.name ?? before?.name;
    if (change.withdrawn === true || name === undefined) names.delete(id);
    else names.set(id, { name, licence: change.licence ?? before?.licence ?? '' });
  }
  return names;
}
