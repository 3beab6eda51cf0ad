import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { aptInstall, canInstall } from './debian.mjs';
import { onPath, root, run, tell } from './run.mjs';

const oldestNode = [20, 19];

/** The sentence for a Node that is too old, or null. */
export function nodeFault(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if (major > oldestNode[0] || (major === oldestNode[0] && minor >= oldestNode[1])) return null;
  return `Roundhand needs Node ${oldestNode.join('.')} or newer; this is Node ${version}. Install a newer Node and start again.`;
}

/** Stop with a sentence when this Node is too old. Called before anything else is loaded. */
export function requireNode() {
  const fault = nodeFault();
  if (fault === null) return;
  process.stderr.write(`${fault}\n`);
  process.exit(1);
}

/**
 * What is wrong with the installed packages, or null when they are what the lock file names. Compared by content, not
 * by file times: a checkout or a copy changes times, and npm keeps its own list of what it really put there.
 */
export function packagesFault(folder = root) {
  const listed = join(folder, 'node_modules', '.package-lock.json');
  if (!existsSync(listed)) return 'no packages are installed yet';
  const wanted = JSON.parse(readFileSync(join(folder, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(listed, 'utf8')).packages;
  for (const [path, one] of Object.entries(wanted)) {
    if (path === '') continue;
    const here = installed[path];
    // Optional packages are the builds for other machines.
    if (here === undefined && !one.optional && !one.devOptional) return `${path} is missing`;
    if (here !== undefined && here.version !== one.version) return `${path} is ${here.version}, not ${one.version}`;
    if (here !== undefined && !existsSync(join(folder, path))) return `${path} is gone`;
  }
  const stray = Object.keys(installed).find((path) => !(path in wanted));
  return stray === undefined ? null : `${stray} is not in package-lock.json`;
}

/** Bring the packages to what package-lock.json names. True when everything is there and the database opens. */
export async function ensureInstalled() {
  const fault = packagesFault();
  if (fault !== null) {
    tell(`Installing the packages Roundhand is built from (${fault}) ...`);
    if ((await npm('ci')) !== 0 && !(await withCompiler(() => npm('ci')))) return false;
  }
  if (await databaseOpens()) return true;
  tell('Building the database library for this Node ...');
  await npm('rebuild', 'better-sqlite3');
  if (await databaseOpens()) return true;
  if (await withCompiler(() => npm('rebuild', 'better-sqlite3'))) return databaseOpens();
  return false;
}

// A ready-made build is fetched where there is one; a compiler is asked for only when that failed.
async function withCompiler(again) {
  const missing = [
    ['python3', 'python3'],
    ['make', 'make'],
    ['g++', 'g++'],
  ].filter(([program]) => onPath(program) === null);
  if (missing.length === 0) {
    tell('The packages could not be installed; the lines above say why. Nothing else was changed.');
    return false;
  }
  const names = missing.map(([, name]) => name);
  if (canInstall() && (await aptInstall(names))) return (await again()) === 0;
  tell(
    `The database library has to be compiled here, and ${names.join(', ')} ${names.length === 1 ? 'is' : 'are'} missing. ` +
      `Install ${names.length === 1 ? 'it' : 'them'} (Debian: sudo apt-get install ${names.join(' ')}) and start again.`,
  );
  return false;
}

// In a process of its own: a build for another Node takes the whole process down.
const databaseOpens = async () =>
  (await run(process.execPath, ['-e', "new (require('better-sqlite3'))(':memory:').close()"], { quiet: true })) === 0;

function npm(...args) {
  // Headers beside this Node make compiling work without a network; npm would fetch them otherwise.
  const prefix = dirname(dirname(process.execPath));
  const headers = existsSync(join(prefix, 'include', 'node', 'node.h')) ? { npm_config_nodedir: prefix } : {};
  const env = { npm_config_audit: 'false', npm_config_fund: 'false', ...headers };
  const own = process.env.npm_execpath;
  return own?.endsWith('.js')
    ? run(process.execPath, [own, ...args], { env, minutes: 20 })
    : run('npm', args, { env, minutes: 20 });
}
