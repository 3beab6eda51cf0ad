import { readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { no, type Outcome, ok, type Said, said } from '../../core/said.js';
import { oneLine } from '../../store/trouble.js';

/** What lies in the place for copies; says no with one sentence when it is not there or cannot be looked into. */
export function filesIn(folder: string): Outcome<readonly string[]> {
  try {
    return ok(readdirSync(folder));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return no('copies.place-missing', { folder });
    if (code === 'ENOTDIR') return no('copies.place-no-folder', { folder });
    return no('copies.place-closed', { folder });
  }
}

/** Why a copy could not be written, as somebody can act on it. */
export function whyNot(error: unknown, folder: string): Said {
  switch ((error as NodeJS.ErrnoException | null)?.code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return said('copies.place-full', { folder });
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return said('copies.place-closed', { folder });
    default: {
      const detail = oneLine(error instanceof Error ? error.message : String(error));
      return said('copies.failed', { folder, detail });
    }
  }
}

/** What a copy is made of before it is sealed lies in a folder with this at the head of its name. */
export const workPrefix = 'roundhand-copy-';

/** Older than this, what a copy left when it was cut off is nobody's any more, milliseconds; ours. */
const left_ms = 3_600_000;

/** Take away what was left by a copy that was cut off: its work, which is not sealed, and its half in the place. */
export function sweep(folder: string, now_ms: number): void {
  const old = (path: string): boolean =>
    now_ms - (statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? now_ms) > left_ms;
  const places = [
    { at: tmpdir(), is: (name: string) => name.startsWith(workPrefix) },
    { at: folder, is: (name: string) => /^roundhand-[\d-]+\.tar(\.age)?\.part$/.test(name) },
  ];
  for (const { at, is } of places) {
    const files = filesIn(at);
    for (const name of files.ok ? files.value.filter(is) : []) {
      if (old(join(at, name))) rmSync(join(at, name), { recursive: true, force: true });
    }
  }
}
