import { z } from 'zod';

/**
 * A mark outside the database that says how much was in it, so that a database the browser has emptied is noticed and
 * reported as a loss instead of looking like a shelter without animals.
 */
const key = 'roundhand.held';
const Held = z.object({ records: z.number().int(), unsent: z.number().int(), at: z.string() });
export type Held = z.infer<typeof Held>;

export function readMark(): Held | null {
  try {
    const parsed = Held.safeParse(JSON.parse(storage()?.getItem(key) ?? 'null'));
    return parsed.success ? parsed.data : null;
  } catch {
    // A mark that cannot be read says nothing; what counts is in the database.
    return null;
  }
}

/** A mark that cannot be written costs the notice of a loss, never the record that has just been saved. */
export function writeMark(held: Held): void {
  try {
    storage()?.setItem(key, JSON.stringify(held));
  } catch {
    // Full, or refused for this page.
  }
}

export function removeMark(): void {
  try {
    storage()?.removeItem(key);
  } catch {
    // Refused for this page: there is no mark then either.
  }
}

/** Null where the browser refuses it (private window, blocked site data). */
function storage(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
