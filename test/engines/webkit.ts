import { type ChildProcess, spawn } from 'node:child_process';
import { createServer } from 'node:net';
import type { Readable } from 'node:stream';
import { patience_ms } from '../support/patience.js';
import type { Engine, Screen } from './screen.js';

/** What a driver calls an element in its answers: W3C WebDriver, section 12 (elements). */
const elementKey = 'element-6066-11e4-a52e-4f735466cecf';
const enterKey = '\uE007';

export interface WebKitPrograms {
  readonly driver: string;
  readonly browser: string;
  readonly display: string;
}

/** WebKitGTK in its small browser under a virtual display, by W3C WebDriver. */
export async function openWebKit(programs: WebKitPrograms): Promise<Engine> {
  // It chooses a free number of its own and says it on its fourth stream.
  const display = spawn(programs.display, ['-displayfd', '3', '-screen', '0', '1280x960x24', '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  const number = await firstLine(display);
  return {
    name: 'WebKit',
    screen: (size) => openScreen(programs, number, size),
    close: () => ended(display),
  };
}

/** A driver for each window: one that has closed a browser and is asked for the next was seen never to answer. */
async function openScreen(
  programs: WebKitPrograms,
  display: string,
  size: { readonly width: number; readonly height: number },
): Promise<Screen> {
  const port = await freePort();
  const running = spawn(programs.driver, [`--port=${port}`], {
    env: { ...process.env, DISPLAY: `:${display}`, GDK_BACKEND: 'x11', LIBGL_ALWAYS_SOFTWARE: '1' },
    stdio: 'ignore',
  });
  try {
    const driver = `http://127.0.0.1:${port}`;
    await answers(driver);
    return await screenOf(driver, programs.browser, size, () => ended(running));
  } catch (error) {
    await ended(running);
    throw error;
  }
}

async function screenOf(
  driver: string,
  browser: string,
  size: { readonly width: number; readonly height: number },
  over: () => Promise<void>,
): Promise<Screen> {
  const options = { binary: browser, args: ['--automation'] };
  const capabilities = { alwaysMatch: { 'webkitgtk:browserOptions': options } };
  const { sessionId } = (await command(driver, 'POST', '/session', { capabilities })) as { sessionId: string };
  const send = (method: string, path: string, body?: object): Promise<unknown> =>
    command(driver, method, `/session/${sessionId}${path}`, body);
  const run = (inPage: (...of: string[]) => unknown, of: readonly string[]): Promise<unknown> =>
    send('POST', '/execute/sync', { script: `return (${inPage})(...arguments)`, args: of });
  await send('POST', '/timeouts', { script: patience_ms, pageLoad: patience_ms });
  await send('POST', '/window/rect', size);
  return {
    goto: async (url) => void (await send('POST', '/url', { url })),
    reload: async () => void (await send('POST', '/refresh', {})),
    ask: async (inPage, ...of) => (await run(inPage, of)) as ReturnType<typeof inPage>,
    press: async (find, ...of) => {
      const found = (await run(find, of)) as { [elementKey]: string } | null;
      if (found === null) return false;
      await send('POST', `/element/${found[elementKey]}/click`, {});
      return true;
    },
    type: async (keys, apart_ms) => {
      const strokes = [...keys.replaceAll('\n', enterKey)].flatMap((value) => [
        { type: 'keyDown', value },
        { type: 'keyUp', value },
        { type: 'pause', duration: apart_ms },
      ]);
      await send('POST', '/actions', { actions: [{ type: 'key', id: 'keyboard', actions: strokes }] });
    },
    picture: async () => Buffer.from(String(await send('GET', '/screenshot')), 'base64'),
    close: async () => {
      await send('DELETE', '');
      await over();
    },
  };
}

async function command(driver: string, method: string, path: string, body?: object): Promise<unknown> {
  const answer = await fetch(`${driver}${path}`, {
    method,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    signal: AbortSignal.timeout(patience_ms),
  });
  const { value } = (await answer.json()) as { value: unknown };
  if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(value)}`);
  return value;
}

/** Waits until the driver takes commands. */
async function answers(driver: string): Promise<void> {
  const until = Date.now() + patience_ms;
  for (;;) {
    try {
      return void (await command(driver, 'GET', '/status'));
    } catch (error) {
      if (Date.now() > until) throw error;
      await new Promise((done) => setTimeout(done, 50));
    }
  }
}

const firstLine = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    (child.stdio[3] as Readable).once('data', (data) => resolve(String(data).trim()));
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`the virtual display ended with ${code}`)));
  });

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null || !child.kill()) return resolve();
    child.once('exit', () => resolve());
  });
