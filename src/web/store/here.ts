import { useMemo, useSyncExternalStore } from 'react';
import { v7 } from 'uuid';
import type { PersonId } from '../../core/ids.js';
import { openDb } from '../../device/db.js';
import { giveUpWhenLeft } from '../../device/given-up.js';
import type { Watched } from '../../device/snapshot.js';
import { askToKeep } from '../../device/store/keep.js';
import type { Status } from '../../device/store/status.js';
import { type AsksAhead, makeStore } from '../../device/store/store.js';
import { shareBetweenTabs } from '../../device/sync/tabs.js';
import { ownClock } from '../../log/device-clock.js';
import { settledNow } from '../../log/settled-time.js';
import type { KnownPerson } from '../../log/views/shelter.js';
import { allKnown, known } from '../../words/known.js';
import { setNames, setZone } from '../../words/say.js';
import { now, nowMs } from '../clock.js';
import { rest } from './rest.js';

let made = 0;
/** A UUIDv7 by our own clock; ids of the same millisecond keep the order in which they were made. */
export const newId = (): string => {
  made = (made + 1) % 0x7fffffff;
  return v7({ msecs: nowMs(), seq: made });
};

/** The store of this device. */
const db = openDb('roundhand');
giveUpWhenLeft(db, window, () => location.reload());
export const store = makeStore({ db, now, newId, rest });

export async function openHere(ahead: AsksAhead): Promise<void> {
  store.world.subscribe(() => setZone(store.world.get().shelter.zone));
  store.people.names.subscribe(() => setNames(store.people.names.get()));
  // Before anything is read: what another tab writes meanwhile is not missed.
  shareBetweenTabs(store);
  await store.open(ahead);
  void askToKeep(store);
}

const useWatched = <T>(value: Watched<T>): T => useSyncExternalStore(value.subscribe, value.get);

/** Also told when somebody is known by another name: sentences are made anew then. */
export function useWorld() {
  useNames();
  return useWatched(store.world);
}
export const useWaiting = () => useWatched(store.people.waiting);
export const useNames = () => useWatched(store.people.names);
export const useShelter = () => useWorld().shelter;
export const useStatus = () => useWatched(store.status);
/** One thing of the status: only told when that changes. */
export const useStatusOf = <K extends keyof Status>(what: K): Status[K] =>
  useSyncExternalStore(store.status.subscribe, () => store.status.get()[what]);
export const useWho = () => useWatched(store.who);

/** The clock of this device as far as it is known; another value only when that changes. */
export function useOwnClock() {
  const device = useStatusOf('device');
  const clock = useStatusOf('clock');
  const { ahead_ms, sure } = ownClock(device ?? '', clock, now());
  return useMemo(() => ({ device: device ?? '', ahead_ms, sure }), [device, ahead_ms, sure]);
}

/** Now, as what is on record is held against it: by the right time where this device knows its clock to be fast. */
export function rightNow(): string {
  const { device, clock } = store.status.get();
  const at = now();
  return settledNow(ownClock(device ?? '', clock, at), at);
}

/** Everybody of the shelter as they are known on this device, by name. */
export function usePeople(): readonly KnownPerson[] {
  const { people } = useShelter();
  const names = useNames();
  return useMemo(() => allKnown(people, names), [people, names]);
}

function useKnown(id: PersonId | null): KnownPerson | null {
  const { people } = useShelter();
  const names = useNames();
  const person = people.find((one) => one.id === id);
  return useMemo(() => (person === undefined ? null : known(person, names)), [person, names]);
}

/** The person at work, or null while nobody has said who it is. */
export const usePerson = (): KnownPerson | null => useKnown(useWho().person);
export const usePartner = (): KnownPerson | null => useKnown(useWho().partner);
