import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path/posix';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { parseSource } from './source.js';
import { type Findings, filesOf, type Tree } from './tree.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const knip = join(root, 'node_modules/knip/bin/knip.js');
export const list = 'test/architecture/unused.json';

/** What may lie unused for now: a file, or `name in file`; the piece of work that will use it; and what it waits for. */
export interface Waiting {
  readonly name: string;
  readonly issue: number;
  readonly reason: string;
}

interface Named {
  readonly name: string;
}
interface Row {
  readonly file: string;
  readonly files?: readonly Named[];
  readonly dependencies?: readonly Named[];
  readonly devDependencies?: readonly Named[];
  readonly exports?: readonly Named[];
  readonly types?: readonly Named[];
}

export const waitingList = (): Waiting[] => JSON.parse(readFileSync(join(root, list), 'utf8')) as Waiting[];

/**
 * What nothing uses, by knip.json. `production`: what no start reaches (command line, web app, its planner, scripts),
 * so that use by tests and benchmarks does not count; else what not even those use.
 */
export async function unusedIn(folder: string, who: 'production' | 'anybody'): Promise<string[]> {
  const options = ['--reporter', 'json', '--no-exit-code', '--no-progress', '--directory', folder];
  const kinds = ['--include', 'files,dependencies,exports,types', ...(who === 'production' ? ['--production'] : [])];
  const config = ['--config', join(root, 'knip.json')];
  const { stdout } = await promisify(execFile)(process.execPath, [knip, ...options, ...kinds, ...config], {
    maxBuffer: 2 ** 26,
  });
  const { issues } = JSON.parse(stdout) as { issues: readonly Row[] };
  return issues
    .flatMap(({ file, files = [], dependencies = [], devDependencies = [], exports = [], types = [] }) => [
      ...files.map(({ name }) => name),
      ...[...dependencies, ...devDependencies, ...exports, ...types].map(({ name }) => `${name} in ${file}`),
    ])
    .sort();
}

/** Unused and not waiting for anything; and what is said to wait and is used, or is not there any more. */
export function unusedFaults(unused: readonly string[], waiting: readonly Waiting[]): string[] {
  const names = new Set(waiting.map(({ name }) => name));
  return [
    ...unused.filter((one) => !names.has(one)).map((one) => `${one} is used by nothing that runs`),
    ...waiting
      .filter(({ name }) => !unused.includes(name))
      .map(({ name }) => `${name} is used, or gone: take it off ${list}`),
    ...waiting
      .filter(({ issue, reason }) => !Number.isInteger(issue) || issue < 1 || reason.trim() === '')
      .map(({ name }) => `${name} waits without a piece of work or a reason`),
  ];
}

/** Who puts the published values to the product, and the engine of treatments that they are put to. */
const asks = /^test\/(reference\/(published\/|asking-)|support\/protocol\.ts$)/;

/** A published value is asked of what people run: never of what waits. */
export function askedOfWaiting(tree: Tree, waiting: readonly Waiting[]): Findings {
  const names = new Set(waiting.map(({ name }) => name));
  const askers = filesOf(tree, asks);
  const faults = askers.flatMap(([path, text]) =>
    parseSource(path, text).imports.flatMap(({ from, line }) => {
      if (!from.startsWith('.')) return [];
      const file = join(dirname(path), from).replace(/\.js$/, '.ts');
      const asked = [file, ...namesTaken(path, text, from).map((name) => `${name} in ${file}`)];
      return asked.filter((one) => names.has(one)).map((one) => `${path}:${line} asks ${one}, which nobody runs`);
    }),
  );
  return { read: askers.length, faults };
}

function namesTaken(path: string, text: string, from: string): string[] {
  return parseSource(path, text).program.body.flatMap((node) =>
    node.type === 'ImportDeclaration' && node.source.value === from
      ? node.specifiers.flatMap((one) =>
          one.type === 'ImportSpecifier' && one.imported.type === 'Identifier' ? [one.imported.name] : [],
        )
      : [],
  );
}
