import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { said } from '../core/said.js';
import { done, type Exit, failed } from './exit.js';

/**
 * Write a new file, whole or not at all: into a neighbour first, then under its name. A file that is there already is
 * left alone.
 */
export async function writeNewFile(file: string, pieces: AsyncIterable<string> | Iterable<string>): Promise<Exit> {
  if (existsSync(file)) return failed(said('cli.file-exists', { file }));
  const partial = `${file}.part-${process.pid}`;
  try {
    const handle = openSync(partial, 'wx');
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
