import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export type Answer = 'feasible' | 'infeasible' | 'undecided';

const solve = fileURLToPath(new URL('solve.mjs', import.meta.url));

/**
 * Ask HiGHS in a child process, which is killed once it has worked for `seconds` of its own processor time: what it
 * proves does not depend on how busy the machine is. Anything but a clear answer is an error.
 */
export async function ask(model: string, seconds: number): Promise<Answer> {
  const child = spawn('sh', ['-c', 'ulimit -t "$1"; exec "$2" "$3"', 'sh', String(seconds), process.execPath, solve]);
  let told = '';
  let wrong = '';
  child.stdout.on('data', (piece: Buffer) => {
    told += piece.toString();
  });
  child.stderr.on('data', (piece: Buffer) => {
    wrong += piece.toString();
  });
  child.stdin.on('error', () => undefined);
  child.stdin.end(model);
  const { code, signal } = await new Promise<{ code: number | null; signal: string | null }>((done) => {
    child.on('close', (code, signal) => done({ code, signal }));
  });
  if (signal === 'SIGKILL' || signal === 'SIGXCPU') return 'undecided';
  if (code === 0 && told === 'Optimal') return 'feasible';
  if (code === 0 && told === 'Infeasible') return 'infeasible';
  throw new Error(`the solver says "${told}" (${code}): ${wrong.slice(0, 400)}`);
}
