import { spawn } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the project, wherever a script was started from. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** A sentence for the person at the terminal. */
export const tell = (sentence) => process.stdout.write(`${sentence}\n`);

// Colour codes have no place in a log file.
const colour = process.stdout.isTTY ? {} : { NO_COLOR: '1', FORCE_COLOR: '0' };

/** The longest that a command may take, however busy the machine is: only what hangs is ended by it. */
const longest_minutes = 240;

/**
 * Run a command to its end and give its exit code; 124 when it outlived its limit, 127 when it cannot be started.
 * It gets no stdin, so that nothing waits for an answer where nobody can give one.
 */
export function run(command, args, { env = {}, minutes = longest_minutes, quiet = false, cwd = root } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd,
      env: { ...process.env, ...colour, ...env },
      stdio: ['ignore', quiet ? 'ignore' : 'inherit', quiet ? 'ignore' : 'inherit'],
      shell: process.platform === 'win32' && !command.endsWith('.exe'),
    });
    let late = false;
    const limit = setTimeout(() => {
      late = true;
      child.kill('SIGKILL');
    }, minutes * 60_000);
    child.on('error', () => {
      clearTimeout(limit);
      resolve(127);
    });
    child.on('close', (code) => {
      clearTimeout(limit);
      if (late) tell(`Stopped after ${minutes} minutes: ${command} ${args.join(' ')}`);
      resolve(late ? 124 : (code ?? 1));
    });
  });
}

/** Run a program of an installed package with this very Node. */
export const runTool = (script, args, options) =>
  run(process.execPath, [join(root, 'node_modules', script), ...args], options);

/** The full path of a program on the PATH, or null. */
export function onPath(name) {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    const path = join(folder, name);
    if (folder !== '' && isProgram(path)) return path;
  }
  return null;
}

export function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
