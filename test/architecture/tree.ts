import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

/** Files by their path from the root of the project, with `/` between folders. A gate is a function over one of these. */
export type Tree = ReadonlyMap<string, string>;

/** What a gate saw: how many files it really read, and one sentence `path:line what is wrong` per fault. */
export interface Findings {
  readonly read: number;
  readonly faults: readonly string[];
}

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const notOurs = new Set(['node_modules', 'dist', '.cache', '.git', 'data', 'coverage']);
const binary = /\.(png|jpg|ico|woff2?|ttf|pdf|sqlite|db|zip|gz|xlsx)$/;
const generated = /\.(log|tsbuildinfo)$/;

let whole: Tree | undefined;
/** Every file of the project that is kept under version control, or would be; one that is not text is empty here. */
export function projectTree(): Tree {
  whole ??= new Map(
    filesUnder('').map((path) => [path, binary.test(path) ? '' : readFileSync(join(root, path), 'utf8')]),
  );
  return whole;
}

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory()) return notOurs.has(entry.name) ? [] : filesUnder(path);
    return entry.isFile() && !generated.test(entry.name) ? [path] : [];
  });
}

/** A tree that exists only in a test, to prove that a gate sees what it is there to see. */
export const planted = (files: Readonly<Record<string, string>>): Tree => new Map(Object.entries(files));

export const filesOf = (tree: Tree, pattern: RegExp): [path: string, text: string][] =>
  [...tree].filter(([path]) => pattern.test(path));

/** The project passes a gate only if the gate has read at least `least` files of it. */
export function expectClean(findings: Findings, least: number): void {
  expect(findings.faults).toEqual([]);
  expect(findings.read).toBeGreaterThanOrEqual(least);
}

export const isTest = (path: string): boolean => /\.test\.tsx?$/.test(path);
export const source = /^src\/.*\.tsx?$/;
