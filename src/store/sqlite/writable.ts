import { closeSync, ftruncateSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import type { FileTrouble } from '../../log/store.js';

/** Bytes that the engine needs beside the records to begin at all: its shared memory and the start of its journal. */
const needed = 128 * 1024;

/** Codes of the system (errno) and what they mean for the records. */
const meanings: Readonly<Record<string, FileTrouble>> = {
  ENOSPC: 'full',
  EDQUOT: 'full',
  EFBIG: 'too-large',
  ENOENT: 'gone',
  EROFS: 'folder-not-writable',
  EACCES: 'folder-not-writable',
  EPERM: 'folder-not-writable',
};

/**
 * Why nothing can be written beside a file of records; null when writing works. The engine says only that it failed, so
 * the same is tried on a file of our own, which goes again: to write a little, and to be as long as the records are.
 */
export function whyNotWritable(file: string): FileTrouble | null {
  const trial = `${file}.trial-${process.pid}`;
  let open: number | null = null;
  try {
    open = openSync(trial, 'wx');
    if (writeSync(open, Buffer.alloc(needed)) < needed) return 'full';
    // Takes up no room: the file has a hole in it.
    ftruncateSync(open, longest(file) + needed);
    return null;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return meanings[code] ?? null;
  } finally {
    if (open !== null) {
      closeSync(open);
      rmSync(trial, { force: true });
    }
  }
}

const longest = (file: string): number =>
  Math.max(...[file, `${file}-wal`].map((one) => statSync(one, { throwIfNoEntry: false })?.size ?? 0));
