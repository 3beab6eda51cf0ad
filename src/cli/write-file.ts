import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { said } from '../core/said.js';
import { done, type Exit, failed } from './exit.js';

/**
 * Write a new file, whole or not at all: into a neighbour first, then under its name. A file that is there already is
 * left alone. `mode` is narrowed by the process's own mask.
 */
export async function writeNewFile(
  file: string,
  pieces: AsyncIterable<string> | Iterable<string>,
  mode = 0o666,
): Promise<Exit> {
  if (existsSync(file)) return failed(said('cli.file-exists', { file }));
  const partial = `${file}.part-${process.pid}`;
  try {
    const handle = openSync(partial, 'wx', mode);
    try {
      for await (const piece of pieces) writeSync(handle, piece);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(partial, file);
    return done;
  } catch (error) {
    rmSync(partial, { force: true });
    return failed(said('cli.not-written', { file, detail: error instanceof Error ? error.message : String(error) }));
  }
}
