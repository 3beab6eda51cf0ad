import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createClient } from '../../../src/api/client.js';
import { openSignIns } from '../../../src/store/private/sign-ins.js';
import { cookieOf } from '../../support/signed-in.js';

const script = fileURLToPath(new URL('./serve.mjs', import.meta.url));

export function requireBuilt(): void {
  const built = fileURLToPath(new URL('../../../dist/server/start.js', import.meta.url));
  if (!existsSync(built)) throw new Error('the server is not built: npm run build');
}

export interface Program {
  readonly child: ChildProcess;
  /** Address, once it listens; null when it ended before. */
  readonly ready: Promise<string | null>;
  readonly ended: Promise<{ code: number | null; signal: NodeJS.Signals | null; out: string; err: string }>;
}

/** Start the built server; `uid` lets another user run it. */
export function start(data: string, port = 0, uid?: number): Program {
  const child = spawn(process.execPath, [script, data, String(port)], {
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(uid === undefined ? {} : { uid, gid: uid }),
  });
  let out = '';
  let err = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const ended: Program['ended'] = new Promise((resolve) => {
    child.on('close', (code, signal) => resolve({ code, signal, out, err }));
  });
  const ready = new Promise<string | null>((resolve) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      const url = /http:\/\/\S+/.exec(out)?.[0];
      if (url !== undefined) {
        folders.set(url, data);
        for (const key of cookies.keys()) if (key.startsWith(`${url} `)) cookies.delete(key);
        resolve(url);
      }
    });
    ended.then(() => resolve(null));
  });
  return { child, ready, ended };
}

/** The data folder of each server that was started, by its address. */
const folders = new Map<string, string>();

const cookies = new Map<string, string>();

/** Headers of a request of somebody who has signed in: the session lies in the file of the server. */
export function asking(url: string, person: string, device?: string): Record<string, string> {
  const there = cookies.get(`${url} ${person} ${device}`);
  // Once is enough, and a disk may be full by the next time.
  if (there !== undefined) return { cookie: there };
  const opened = openSignIns(folders.get(url) ?? '');
  if (!opened.ok) throw new Error(opened.why.say);
  const cookie = cookieOf(opened.value, person, new Date().toISOString(), device);
  opened.value.close();
  cookies.set(`${url} ${person} ${device}`, cookie);
  return { cookie };
}

/** A client of somebody who has signed in on a device; on the usual one where none is named. */
export const clientOf = (url: string, person: string, device?: string) =>
  createClient(
    async (address, init) => {
      const headers = { ...init.headers, ...asking(url, person, device) };
      return await fetch(address, { ...init, headers });
    },
    url,
    { now: () => new Date().toISOString() },
  );

export const value = <T>(answer: { ok: true; value: T } | { ok: false; code: string; problem: unknown }): T => {
  if (!answer.ok) throw new Error(`${answer.code} ${JSON.stringify(answer.problem)}`);
  return answer.value;
};
