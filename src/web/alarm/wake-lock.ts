import { useEffect, useState } from 'react';

export type WakeState = 'held' | 'refused' | 'none';

/**
 * Keeps the screen lit while a round is on. The lock is lost whenever the page goes to the back, so it is asked for again
 * on return; a phone that is low on power refuses, and then the screen says so.
 */
export function useWakeLock(wanted: boolean): WakeState {
  const [state, setState] = useState<WakeState>('none');
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const ask = async (): Promise<void> => {
      if (over || document.visibilityState !== 'visible' || (lock !== null && !lock.released)) return;
      try {
        lock = await navigator.wakeLock.request('screen');
        if (over) return void lock.release();
        setState('held');
        lock.addEventListener('release', () => {
          if (!over) setState('refused');
        });
      } catch {
        if (!over) setState('refused');
      }
    };
    const again = (): void => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    window.addEventListener('focus', again);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', again);
      window.removeEventListener('focus', again);
      void lock?.release();
    };
  }, [wanted]);
  return state;
}
