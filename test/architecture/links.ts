import { dirname, join } from 'node:path/posix';
import { type Findings, filesOf, type Tree } from './tree.js';

/** Links between the pages that lead to no file. Folders count by the files in them. */
export function linkFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const pages = filesOf(tree, /\.md$/);
  const folders = new Set([...tree.keys()].flatMap((path) => parents(path)));
  for (const [path, text] of pages) {
    for (const match of text.matchAll(/\]\(([^)\s]+)\)/g)) {
      const target = (match[1] ?? '').replace(/#.*$/, '');
      if (target === '' || /^[a-z]+:/.test(target)) continue;
      const file = join(dirname(path), target).replace(/\/$/, '');
      const line = text.slice(0, match.index).split('\n').length;
      if (!tree.has(file) && !folders.has(file)) faults.push(`${path}:${line} leads to ${target}, which is not there`);
    }
  }
  return { read: pages.length, faults };
}

function parents(path: string): string[] {
  const folder = dirname(path);
  return folder === '.' ? [] : [folder, ...parents(folder)];
}
