import type { SignIns } from '../../store/private/sign-ins.js';
import { type Refusal, refuse } from '../refusal.js';
import { signInLimits } from './limits.js';

/** Counts wrong tries by person and by address, and makes each wait longer than the one before. */
export interface Gate {
  /** Why nobody may try now; null when one may. */
  readonly waits: () => Refusal | null;
  /** To be called before the answer is worked out: tries that run side by side count too. */
  readonly count: () => void;
  /** It was right: what was counted is forgotten. */
  readonly clear: () => void;
}

export function gateOf(signIns: SignIns, now: string, whose: string, from: string): Gate {
  const keys = [
    { key: `whose:${whose}`, free: signInLimits.freeTries },
    { key: `from:${from}`, free: signInLimits.freeTriesFrom },
  ];
  const at = Date.parse(now);
  return {
    waits: () => {
      const left = Math.max(0, ...keys.map(({ key }) => Date.parse(signIns.tries(key)?.until ?? now) - at));
      return left > 0 ? refuse('sign-in-waits', { seconds: Math.ceil(left / 1000) }) : null;
    },
    count: () => {
      for (const { key, free } of keys) {
        const count = (signIns.tries(key)?.count ?? 0) + 1;
        const over = count - free;
        const wait = over < 0 ? 0 : Math.min(signInLimits.longestWait_ms, signInLimits.firstWait_ms * 2 ** over);
        signIns.setTries(key, { count, until: new Date(at + wait).toISOString() });
      }
    },
    clear: () => {
      for (const { key } of keys) signIns.setTries(key, null);
    },
  };
}
