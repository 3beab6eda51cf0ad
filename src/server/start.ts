import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { no, type Outcome, ok, type Said, said } from '../core/said.js';
import type { Draft } from '../log/record.js';
import { StoreTrouble } from '../log/store.js';
import { blobsFolder, folderBlobs } from '../store/blobs/folder.js';
import { openPrivateSide } from '../store/private/sqlite.js';
import { openStore } from '../store/sqlite/open.js';
import { say } from '../words/say.js';
import { createApp } from './app.js';
import type { MakeDemo } from './context.js';
import { usualTimes } from './rolling-check.js';

export interface StartOptions {
  /** Folder of the records; made when it is missing. */
  readonly data: string;
  /** 0: any free port. */
  readonly port: number;
  /** Address to listen on; only this computer when left out. */
  readonly host?: string;
  /** Public names of the server, when it has any. */
  readonly names?: readonly string[];
  readonly webRoot?: string;
  readonly demo?: MakeDemo;
  readonly starter?: (at: string) => readonly Draft[];
  readonly clock?: () => string;
  readonly logLevel?: string;
  /** Hears, on the console, what is wrong with the records. */
  readonly complain?: (what: Said) => void;
}

export interface Running {
  readonly url: string;
  readonly port: number;
  /** Finish what is being answered, then let go of the records. */
  readonly close: () => Promise<void>;
}

/** Open the records and listen. Says no with one sentence; nothing is then left open. */
export async function startServer(options: StartOptions): Promise<Outcome<Running>> {
  const opened = await openStore(options.data);
  if (!opened.ok) return opened;
  const store = opened.value;
  const people = openPrivateSide(options.data);
  if (!people.ok) {
    await store.close();
    return people;
  }
  const side = people.value;
  try {
    const { data: _data, port, host = '127.0.0.1', ...rest } = options;
    const app = await createApp({
      ...rest,
      store,
      blobs: folderBlobs(join(options.data, blobsFolder)),
      people: side,
      backUp: store.backUp,
      rolling: usualTimes,
      clock: options.clock ?? (() => new Date().toISOString()),
      version: versionOf(),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    });
    const url = await app.listen({ port, host });
    const close = async (): Promise<void> => {
      await app.close();
      await store.close();
      await side.close();
    };
    return ok({ url, port: Number(new URL(url).port), close });
  } catch (error) {
    await store.close();
    await side.close();
    return notStarted(error, options);
  }
}

/**
 * Start, say where, and stay until told to stop. What stands in the way is one sentence on stderr and an exit code that
 * is not zero.
 */
export async function serve(options: StartOptions): Promise<void> {
  const complain = (what: Said): void => void process.stderr.write(`${say(what)}\n`);
  const started = await startServer({ complain, ...options });
  if (!started.ok) {
    process.stderr.write(`${say(started.why)}\n`);
    process.exitCode = 1;
    return;
  }
  const { url, close } = started.value;
  process.stdout.write(`${say(said('server.start.listening', { url }))}\n`);
  let stopping = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      // A second signal is somebody who does not want to wait.
      if (stopping) process.exit(1);
      stopping = true;
      close().then(
        () => process.exit(0),
        () => process.exit(1),
      );
    });
  }
}

function notStarted(error: unknown, { port, host = '127.0.0.1' }: StartOptions): Outcome<never> {
  if (error instanceof StoreTrouble) return { ok: false, why: error.why };
  const code = typeof error === 'object' && error !== null && 'code' in error ? error.code : '';
  if (code === 'EADDRINUSE') return no('server.start.port-in-use', { port: String(port) });
  if (code === 'EACCES') return no('server.start.port-not-allowed', { port: String(port) });
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') return no('server.start.host-unknown', { host });
  return no('server.start.failed', { detail: error instanceof Error ? error.message : String(error) });
}

/** The version of the program, from its package, which lies two folders up both in the sources and when built. */
export function versionOf(): string {
  const text = readFileSync(fileURLToPath(new URL('../../package.json', import.meta.url)), 'utf8');
  const { version } = JSON.parse(text) as { version: string };
  return version;
}
