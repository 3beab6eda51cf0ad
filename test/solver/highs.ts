import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export type Answer = 'feasible' | 'infeasible' | 'undecided';

/** Ask HiGHS in a child process, which is killed after `seconds`. Anything but a clear answer is an error. */
export async function ask(model: string, seconds: number): Promise<Answer> {
  const child = spawn(process.execPath, [fileURLToPath(new URL('solve.mjs', import.meta.url))]);
  let told = '';
  let wrong = '';
  child.stdout.on('data', (piece: Buffer) => {
    told += piece.toString();
  });
  child.stderr.on('data', (piece: Buffer) => {
    wrong += piece.toString();
  });
  const timer = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
  child.stdin.on('error', () => undefined);
  child.stdin.end(model);
  const { code, signal } = await new Promise<{ code: number | null; signal: string | null }>((done) => {
    child.on('close', (code, signal) => done({ code, signal }));
  });
  clearTimeout(timer);
  if (signal === 'SIGKILL') return 'undecided';
  if (code === 0 && told === 'Optimal') return 'feasible';
  if (code === 0 && told === 'Infeasible') return 'infeasible';
  throw new Error(`the solver says "${told}" (${code}): ${wrong.slice(0, 400)}`);
}
