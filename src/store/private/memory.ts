import type { PersonId } from '../../core/ids.js';
import { byId, changedBy, type PrivatePerson, type PrivateSide } from '../../log/private-side.js';

/** A private side in memory, gone with the process. Passes the contract suite. */
export function memoryPrivateSide(first: readonly PrivatePerson[] = []): PrivateSide {
  const people = new Map<PersonId, PrivatePerson>(first.map((one) => [one.id, one]));
  const erased = new Set<PersonId>();
  let list: readonly PrivatePerson[] | null = null;
  return {
    change: async (changes) => {
      list = null;
      return changes.map((change) => {
        if (erased.has(change.id)) return 'erased';
        const next = changedBy(people.get(change.id), change);
        if (next === null) return 'nameless';
        people.set(change.id, next);
        return 'kept';
      });
    },
    people: async () => {
      list ??= [...people.values()].sort(byId);
      return list;
    },
    erase: async (ids) => {
      list = null;
      for (const id of ids) {
        people.delete(id);
        erased.add(id);
      }
    },
    faults: async () => [],
    close: async () => {},
  };
}
