import type { RecordId } from '../../core/ids.js';

/** Ids of the records of a world: a value, to which a record more can be added without copying all that are there. */
export interface RecordIds {
  readonly has: (id: RecordId) => boolean;
  readonly size: number;
  readonly old: ReadonlySet<RecordId>;
  readonly fresh: ReadonlySet<RecordId>;
}

/** So many are kept beside the others before they are put together with them. */
const mostFresh = 256;

const idsOf = (old: ReadonlySet<RecordId>, fresh: ReadonlySet<RecordId>): RecordIds => ({
  has: (id) => old.has(id) || fresh.has(id),
  size: old.size + fresh.size,
  old,
  fresh,
});

export const noIds: RecordIds = idsOf(new Set(), new Set());

/** With some more, none of which is there yet; the value before stays what it was. */
export function withIds(before: RecordIds, added: ReadonlySet<RecordId>): RecordIds {
  if (added.size === 0) return before;
  if (before.fresh.size + added.size <= mostFresh) return idsOf(before.old, new Set([...before.fresh, ...added]));
  return idsOf(new Set([...before.old, ...before.fresh, ...added]), new Set());
}

/** Without some; the value before stays what it was. */
export function withoutIds(before: RecordIds, gone: ReadonlySet<RecordId>): RecordIds {
  const rest = [...before.old, ...before.fresh].filter((id) => !gone.has(id));
  return idsOf(new Set(rest), new Set());
}
