import { readFileSync } from 'node:fs';
import type { Server } from 'node:https';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { no, type Outcome, ok, type Said, said } from '../core/said.js';
import type { Draft } from '../log/record.js';
import { StoreTrouble } from '../log/store.js';
import { blobsFolder, folderBlobs } from '../store/blobs/folder.js';
import { openSignIns } from '../store/private/sign-ins.js';
import { openPrivateSide } from '../store/private/sqlite.js';
import { openStore } from '../store/sqlite/open.js';
import { headsOf } from '../store/tree-heads.js';
import { say } from '../words/say.js';
import { createApp } from './app.js';
import type { MakeDemo } from './context.js';
import type { CopiesAsked } from './copies/keep-copies.js';
import type { Reached } from './lan/authority.js';
import { type LanAsked, type LanOpen, prepareLan } from './lan/lan.js';
import { qrLines } from './lan/qr.js';
import { usualTimes } from './rolling-check.js';

const thisComputer = '127.0.0.1';
const everyAddress = '0.0.0.0';

export interface StartOptions {
  /** Folder of the records; made when it is missing. */
  readonly data: string;
  /** 0: any free port. */
  readonly port: number;
  /** Address to listen on; only this computer when left out. */
  readonly host?: string;
  /** Public names of the server, when it has any. */
  readonly names?: readonly string[];
  /** Https on the shelter's network; plain http when left out. */
  readonly lan?: LanAsked;
  /** Copies in a second place; none are made when left out. */
  readonly copies?: CopiesAsked;
  readonly webRoot?: string;
  readonly demo?: MakeDemo;
  readonly starter?: (at: string) => readonly Draft[];
  readonly clock?: () => string;
  readonly logLevel?: string;
  /** Hears, on the console, what is wrong with the records. */
  readonly complain?: (what: Said) => void;
  /** Prints the code of the first administrator. */
  readonly printCode?: (code: string) => void;
}

export interface Running {
  readonly url: string;
  readonly port: number;
  /** How phones come here over https; null without it. */
  readonly lan: Omit<LanOpen, 'close'> | null;
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
  const secrets = openSignIns(options.data);
  if (!secrets.ok) {
    await store.close();
    await side.close();
    return secrets;
  }
  const signIns = secrets.value;
  const closeAll = async (): Promise<void> => {
    await store.close();
    await side.close();
    signIns.close();
  };
  const clock = options.clock ?? (() => new Date().toISOString());
  try {
    const { data, port, lan: asked, ...rest } = options;
    const prepared =
      asked === undefined ? null : await prepareLan(asked, data, clock, rest.complain ?? (() => undefined));
    if (prepared !== null && !prepared.ok) {
      await closeAll();
      return prepared;
    }
    const lan = prepared?.value ?? null;
    const { host = lan === null ? thisComputer : everyAddress } = options;
    /** Printed once it listens: a code of a program that did not start is worth nothing. */
    const codes: string[] = [];
    const app = await createApp({
      ...rest,
      printCode: (code) => void codes.push(code),
      ...(lan === null ? {} : { https: lan.certificate, names: [...(rest.names ?? []), ...namesOf(lan.reached)] }),
      store,
      blobs: folderBlobs(join(data, blobsFolder)),
      people: side,
      signIns,
      backUp: store.backUp,
      heads: headsOf(store, data, clock),
      rolling: usualTimes,
      clock,
      version: versionOf(),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    });
    const listening = await app.listen({ port, host });
    for (const code of codes) rest.printCode?.(code);
    const lanOpen = lan === null ? null : await lan.open(app.server as unknown as Server, host);
    const url = lanOpen?.urls[0] ?? listening;
    const close = async (): Promise<void> => {
      await lanOpen?.close();
      await app.close();
      await closeAll();
    };
    return ok({ url, port: Number(new URL(listening).port), lan: lanOpen, close });
  } catch (error) {
    await closeAll();
    return notStarted(error, options);
  }
}

/**
 * Start, say where, and stay until told to stop. What stands in the way is one sentence on stderr and an exit code that
 * is not zero.
 */
export async function serve(options: StartOptions): Promise<void> {
  const complain = (what: Said): void => void process.stderr.write(`${say(what)}\n`);
  const printCode = (code: string): void => void process.stdout.write(`${say(said('people.first-code', { code }))}\n`);
  const started = await startServer({ complain, printCode, ...options });
  if (!started.ok) {
    process.stderr.write(`${say(started.why)}\n`);
    process.exitCode = 1;
    return;
  }
  const { url, lan, close } = started.value;
  process.stdout.write(`${say(said('server.start.listening', { url }))}\n`);
  if (lan !== null) tellPhones(lan, complain);
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

const namesOf = ({ name }: Reached): readonly string[] => (name === null ? [] : [name]);

/** The way of a phone to this server, and what stands against it. */
function tellPhones({ urls, trust, told }: Omit<LanOpen, 'close'>, complain: (what: Said) => void): void {
  const lines: string[] = urls.length < 2 ? [] : [say('lan.also', { urls: { list: urls.slice(1) } })];
  if (trust !== null) {
    lines.push('', say('lan.scan', { url: trust.url }), ...qrLines(trust.url, process.stdout.isTTY));
    lines.push(say('lan.fingerprint', { fingerprint: trust.fingerprint }));
  }
  for (const line of lines) process.stdout.write(`${line}\n`);
  for (const what of told) complain(what);
}

function notStarted(error: unknown, { port, host = thisComputer }: StartOptions): Outcome<never> {
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
