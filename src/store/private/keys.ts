import {
  chmodSync,
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { no, type Outcome, ok } from '../../core/said.js';
import { oneLine } from '../trouble.js';

/** The keys of this server lie beside its records and in no copy of them. */
export const keysFolder = 'keys';

/** A folder of key files that its owner alone can read. */
export interface Keys {
  readonly folder: string;
  /** The text of a file, null when there is none; says no when others may read it. */
  readonly read: (name: string) => Outcome<string | null>;
  /** Writes a file whole or not at all, readable by its owner only from the first byte on. */
  readonly write: (name: string, text: string) => Outcome<null>;
}

/** Open, or make, the folder of keys in a data folder. Says no when it is open to others; nothing is narrowed by itself. */
export function openKeys(data: string): Outcome<Keys> {
  const folder = join(data, keysFolder);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const wide = widerThanOwner(folder);
    if (wide !== null) return no('lan.keys.folder-open', { folder, mode: wide });
  } catch (error) {
    return no('lan.keys.failed', { file: folder, detail: detailOf(error) });
  }
  return ok({
    folder,
    read: (name) => readKeyFile(join(folder, name)),
    write: (name, text) => writeWhole(join(folder, name), text),
  });
}

/** A key file, also one that lies elsewhere; null when there is none. */
export function readKeyFile(file: string): Outcome<string | null> {
  try {
    const wide = widerThanOwner(file);
    return wide === null ? ok(readFileSync(file, 'utf8')) : no('lan.keys.file-open', { file, mode: wide });
  } catch (error) {
    if (isMissing(error)) return ok(null);
    return no('lan.keys.failed', { file, detail: detailOf(error) });
  }
}

function writeWhole(file: string, text: string): Outcome<null> {
  const partial = `${file}.part-${process.pid}`;
  try {
    rmSync(partial, { force: true });
    const handle = openSync(partial, 'wx', 0o600);
    try {
      chmodSync(partial, 0o600);
      writeSync(handle, text);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(partial, file);
    return ok(null);
  } catch (error) {
    rmSync(partial, { force: true });
    return no('lan.keys.failed', { file: dirname(file), detail: detailOf(error) });
  }
}

/** The rights in octal when somebody besides the owner has any; null otherwise, and where rights are not kept in modes. */
function widerThanOwner(path: string): string | null {
  if (process.platform === 'win32') return null;
  const mode = statSync(path).mode & 0o777;
  return (mode & 0o077) === 0 ? null : mode.toString(8).padStart(3, '0');
}

const isMissing = (error: unknown): boolean =>
  typeof error === 'object' && error !== null && 'code' in error && error.code === 'ENOENT';

const detailOf = (error: unknown): string => oneLine(error instanceof Error ? error.message : String(error));
