import { type ChildProcess, fork } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const scriptAt = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const built = fileURLToPath(new URL('../../dist/web/index.html', import.meta.url));

/** The built server on a folder of its own, with a clock the journey holds; it can be stopped and started again. */
export interface Served {
  readonly url: () => string;
  readonly setClock: (ahead_ms: number) => void;
  readonly stop: () => Promise<void>;
  /** Again on the same folder and port. */
  readonly startAgain: () => Promise<void>;
}

/** `script` is the server's own file beside this one: which shelter it offers. `web`: another web app than the built one. */
export async function serve(data: string, start: string, script = './serve.mjs', web?: string): Promise<Served> {
  if (!existsSync(built)) throw new Error('The web app is not built: npm run build');
  let child: ChildProcess | null = null;
  let url = '';
  let ahead = 0;
  const begin = async (port: string): Promise<void> => {
    const started = fork(scriptAt(script), [data, port, start], {
      env: { ...process.env, ...(web === undefined ? {} : { ROUNDHAND_WEB: web }) },
    });
    child = started;
    url = await new Promise<string>((resolve, reject) => {
      started.once('message', (message) => resolve(String(message)));
      started.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
    });
    started.send(ahead);
  };
  await begin('0');
  return {
    url: () => url,
    setClock: (ahead_ms) => {
      ahead = ahead_ms;
      child?.send(ahead);
    },
    stop: async () => {
      const running = child;
      child = null;
      if (running === null) return;
      const ended = new Promise<void>((resolve) => {
        running.once('exit', () => resolve());
      });
      running.kill('SIGTERM');
      await ended;
    },
    startAgain: () => begin(new URL(url).port),
  };
}
