import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect } from 'vitest';
import { longest_ms } from '../../support/patience.js';

const project = fileURLToPath(new URL('../../../', import.meta.url));
const builtMain = join(project, 'dist', 'cli', 'main.js');

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Run a built program to its end. */
function runMain(main: string, args: readonly string[], input: string | null = null): Promise<Ended> {
  const child = spawn(process.execPath, [main, ...args], { stdio: ['pipe', 'pipe', 'pipe'] });
  const ended = collect(child);
  child.stdin.on('error', () => undefined);
  child.stdin.end(input ?? '');
  return ended.done;
}

function collect(child: ChildProcess): { readonly seen: Ended; readonly done: Promise<Ended> } {
  const seen = { code: null as number | null, out: '', err: '' };
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    seen.out += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    seen.err += text;
  });
  const done = new Promise<Ended>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => {
      seen.code = code;
      resolve(seen);
    });
  });
  return { seen, done };
}

export interface Served {
  readonly url: string;
  readonly out: () => string;
  readonly stop: () => Promise<Ended>;
}

/** Start the program and wait for its address; throws with what it said when it ends before. */
async function startMain(main: string, args: readonly string[]): Promise<Served> {
  const child = spawn(process.execPath, [main, 'start', ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  const { seen, done } = collect(child);
  const url = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', () => {
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(seen.out)?.[0];
      if (found !== undefined) resolve(found);
    });
    done.then(({ code, out, err }) => reject(new Error(`ended with ${code}: ${out}${err}`)), reject);
  });
  return {
    url,
    out: () => seen.out,
    stop: () => {
      child.kill('SIGTERM');
      return done;
    },
  };
}

/**
 * The built program in a folder of its own, with a data folder of its own: what `npm start` does without a data folder
 * can then be tried without touching the records in the project.
 */
function copyOfProject(folder: string): { readonly main: string; readonly data: string } {
  if (!existsSync(builtMain)) throw new Error('The program is not built: npm run build');
  mkdirSync(folder, { recursive: true });
  cpSync(join(project, 'dist'), join(folder, 'dist'), {
    recursive: true,
    filter: (path) => !path.startsWith(join(project, 'dist', 'web')),
  });
  cpSync(join(project, 'protocols'), join(folder, 'protocols'), { recursive: true });
  cpSync(join(project, 'package.json'), join(folder, 'package.json'));
  symlinkSync(join(project, 'node_modules'), join(folder, 'node_modules'));
  return { main: join(folder, 'dist', 'cli', 'main.js'), data: join(folder, 'data') };
}

/**
 * The program for one test file: a copy of what is built, so that a build going on at the same time does not change it,
 * and one invented shelter, made as `npm start` makes it.
 */
export function commandLine() {
  const folder = mkdtempSync(join(tmpdir(), 'roundhand-program-'));
  const there = { main: '', demo: '', startOut: '', stopped: null as Ended | null };
  let copies = 0;
  beforeAll(async () => {
    const copy = copyOfProject(join(folder, 'project'));
    there.main = copy.main;
    const served = await startMain(copy.main, ['--port', '0']);
    expect(await (await fetch(`${served.url}/api/health`)).json()).toMatchObject({ ok: true });
    there.startOut = served.out();
    there.stopped = await served.stop();
    there.demo = copy.data;
  }, longest_ms);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const run = (args: readonly string[], input: string | null = null) => runMain(there.main, args, input);
  const on = (data: string, command: string, ...args: string[]) => run([command, ...args, '--data', data]);
  return {
    folder,
    there,
    run,
    on,
    startProgram: (args: readonly string[]) => startMain(there.main, args),
    /** The invented shelter in a folder of its own, for tests that write. */
    ownCopy: (): string => {
      const to = join(folder, `copy-${++copies}`);
      cpSync(there.demo, to, { recursive: true });
      return to;
    },
    records: async (data: string) => (await on(data, 'export')).out.trimEnd().split('\n'),
  };
}

export const jsonOf = (text: string) =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

/** One sentence on stderr, nothing on stdout. */
export function expectSentence(ended: Ended, code: number, part: string): void {
  expect(ended.err).toContain(part);
  expect(ended.err.trimEnd().split('\n')).toHaveLength(1);
  expect(ended.err).not.toMatch(/⟨|cli\.|import\.|server\.|at .*\.js:\d+/);
  expect([ended.code, ended.out]).toEqual([code, '']);
}
