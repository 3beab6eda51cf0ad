import { z } from 'zod';

/**
 * A mark outside the database that says how much was in it, so that a database the browser has emptied is noticed and
 * reported as a loss instead of looking like a shelter without animals.
 */
const key = 'roundhand.held';
const Held = z.object({ records: z.number().int(), unsent: z.number().int(), at: z.string() });
export type Held = z.infer<typeof Held>;

export function readMark(): Held | null {
  const text = storage()?.getItem(key) ?? null;
  if (text === null) return null;
  const parsed = Held.safeParse(JSON.parse(text));
  return parsed.success ? parsed.data : null;
}

export function writeMark(held: Held): void {
  storage()?.setItem(key, JSON.stringify(held));
}

export const removeMark = (): void => storage()?.removeItem(key);

/** Null where the browser refuses it (private window, blocked site data). */
function storage(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
