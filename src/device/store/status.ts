import type { DeviceId, PersonId } from '../../core/ids.js';
import type { Said } from '../../core/said.js';
import type { Measured } from '../../log/device-clock.js';

/** Who works on this device. Both are on every screen. */
export interface Who {
  readonly person: PersonId | null;
  readonly partner: PersonId | null;
  /** The device's count at the last change of person: what was made sure of before it counts no more. */
  readonly since: number;
}

/** How the device stands with its own store and with the server. */
export interface Status {
  readonly phase: 'opening' | 'ready' | 'cannot-open';
  readonly device: DeviceId | null;
  readonly unsent: number;
  readonly turnedAway: number;
  /** Pictures made here that the server does not have yet, and those that it will not have. */
  readonly pictures: { readonly waiting: number; readonly notTaken: number };
  /** Records from the server that only a newer program can read. */
  readonly unread: number;
  /** Records that are damaged in the server's log; what they said is not worked out here. */
  readonly damaged: number;
  /** Whether the browser has promised to keep the data; null when it has not said. */
  readonly kept: boolean | null;
  /** Everything the server had has been here at least once; before that the records tell half a story. */
  readonly whole: boolean;
  /** How far the first fetch has come. */
  readonly fetched: { readonly have: number; readonly all: number } | null;
  /** `unknown` until the first try. */
  readonly server: 'unknown' | 'reached' | 'out-of-reach' | 'wants-sign-in' | 'other-shelter';
  /** Instant of the last time the server answered, or null. */
  readonly heardAt: string | null;
  /** How this device's clock stood against the server's when that was last measured; null before the first answer. */
  readonly clock: Measured | null;
  /** What this device held when it was last seen, if it now holds nothing: the browser has thrown it away. */
  readonly loss: { readonly records: number; readonly unsent: number; readonly at: string } | null;
  /** What the server says is wrong with its records, or with getting at them. */
  readonly told: readonly Said[];
  readonly trouble: Said | null;
  /** Another tab has taken the database: a newer version of the program, or somebody emptied the device. */
  readonly stopped: 'newer' | 'deleted' | null;
}

export const opening: Status = {
  phase: 'opening',
  device: null,
  unsent: 0,
  turnedAway: 0,
  pictures: { waiting: 0, notTaken: 0 },
  unread: 0,
  damaged: 0,
  kept: null,
  whole: false,
  fetched: null,
  server: 'unknown',
  heardAt: null,
  clock: null,
  loss: null,
  told: [],
  trouble: null,
  stopped: null,
};

/** The status with a patch; the very same one where it changes nothing, so that nobody is told of it. */
export function sayIn(status: Status, patch: Partial<Status>): Status {
  const changed = Object.entries(patch).filter(([key, value]) => !isSame(status[key as keyof Status], value));
  return changed.length === 0 ? status : { ...status, ...Object.fromEntries(changed) };
}

const isSame = (one: unknown, other: unknown): boolean =>
  Object.is(one, other) || JSON.stringify(one) === JSON.stringify(other);
