import { useEffect, useState } from 'react';
import type { PersonId } from '../../core/ids.js';
import { readMeta, writeMeta } from '../../device/db.js';
import { watched } from '../../device/snapshot.js';
import { nowMs } from '../clock.js';
import { runningHere } from '../running/running-here.js';
import { store } from '../store/here.js';

/** A device that nobody touched for so long asks who has it. Our choice, no source. */
const idle_ms = 10 * 60_000;

const touches = ['pointerdown', 'pointermove', 'keydown', 'wheel'] as const;

/** Whether this device is locked; a page that is loaded anew stays so. */
export const locked = watched(false);

export async function setLocked(is: boolean): Promise<void> {
  await writeMeta(store.db, 'locked', is);
  locked.set(is);
}

/**
 * Whether whoever works here can open it again: by a PIN without the network too; by a password at the server alone, so
 * never in a round or while a test runs, which go on where no network is. In the invented shelter nobody has either.
 */
async function canOpenAgain(person: PersonId): Promise<boolean> {
  if ((await readMeta(store.db, `pin:${person}`)) !== undefined) return true;
  const inRound = location.pathname.startsWith('/round/') || runningHere.tests > 0;
  return !inRound && !store.world.get().shelter.demo && store.status.get().server === 'reached';
}

/** Locks the device when nobody has touched it for a while, where who works here can open it again. */
export function useLocked(): boolean {
  const [is, setIs] = useState(locked.get());
  useEffect(() => locked.subscribe(() => setIs(locked.get())), []);
  useEffect(() => {
    void readMeta(store.db, 'locked').then(
      (kept) => locked.set(kept === true),
      () => undefined,
    );
    let touched = nowMs();
    const touch = (): void => {
      touched = nowMs();
    };
    const look = async (): Promise<void> => {
      const { person } = store.who.get();
      // A clock that is put back does not hold it open.
      if (locked.get() || person === null || Math.abs(nowMs() - touched) < idle_ms) return;
      if (await canOpenAgain(person)) await setLocked(true);
    };
    const timer = setInterval(() => void look().catch(() => undefined), 5_000);
    for (const kind of touches) window.addEventListener(kind, touch, true);
    return () => {
      clearInterval(timer);
      for (const kind of touches) window.removeEventListener(kind, touch, true);
    };
  }, []);
  return is;
}
