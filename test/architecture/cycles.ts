import { dirname, join } from 'node:path/posix';
import { parseSource } from './source.js';
import { type Findings, filesOf, source, type Tree } from './tree.js';

/**
 * Circles of imports, types included: two files that cannot be read one after the other are one file or three.
 * Depth first, each circle told once as the files it runs through.
 */
export function cycleFaults(tree: Tree): Findings {
  const files = filesOf(tree, source);
  const edges = new Map(files.map(([path, text]) => [path, targetsOf(tree, path, text)]));
  const finished = new Set<string>();
  const faults: string[] = [];
  const walk = (path: string, trail: readonly string[]): void => {
    const met = trail.indexOf(path);
    if (met >= 0) faults.push(`${path}:1 imports itself: ${[...trail.slice(met), path].join(' -> ')}`);
    if (met >= 0 || finished.has(path)) return;
    for (const next of edges.get(path) ?? []) walk(next, [...trail, path]);
    finished.add(path);
  };
  for (const [path] of files) walk(path, []);
  return { read: files.length, faults };
}

function targetsOf(tree: Tree, path: string, text: string): string[] {
  return parseSource(path, text)
    .imports.filter((one) => one.from.startsWith('.') && one.from.endsWith('.js'))
    .flatMap((one) => {
      const stem = join(dirname(path), one.from).slice(0, -'.js'.length);
      return [`${stem}.ts`, `${stem}.tsx`].filter((candidate) => tree.has(candidate));
    });
}
