import { useEffect, useState } from 'react';
import { readMeta, writeMeta } from '../../device/db.js';
import { watched } from '../../device/snapshot.js';
import { nowMs } from '../clock.js';
import { store } from '../store/here.js';

/** A device that nobody touched for so long asks who has it. Our choice, no source. */
const idle_ms = 10 * 60_000;

/** Whether this device is locked; a page that is loaded anew stays so. */
export const locked = watched(false);

export async function setLocked(is: boolean): Promise<void> {
  await writeMeta(store.db, 'locked', is);
  locked.set(is);
}

/**
 * Locks the device when nobody has touched it for a while: only where whoever works here can open it again without the
 * network, by a PIN. In the invented shelter nobody has one.
 */
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
      if (locked.get() || person === null || nowMs() - touched < idle_ms) return;
      if ((await readMeta(store.db, `pin:${person}`)) !== undefined) await setLocked(true);
    };
    const timer = setInterval(() => void look().catch(() => undefined), 5_000);
    for (const kind of ['pointerdown', 'keydown'] as const) window.addEventListener(kind, touch, true);
    return () => {
      clearInterval(timer);
      for (const kind of ['pointerdown', 'keydown'] as const) window.removeEventListener(kind, touch, true);
    };
  }, []);
  return is;
}
