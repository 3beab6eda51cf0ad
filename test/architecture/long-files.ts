import { type Findings, filesOf, type Tree } from './tree.js';

const limit = 400;
const list = 'test/architecture/long-files.json';

/** Files too long to be read in one go, unless the list has the reason; and entries whose file has become short. */
export function longFileFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const reasons = JSON.parse(tree.get(list) ?? '{}') as Record<string, string>;
  const files = filesOf(tree, /^(src|test|scripts|bench)\/.*\.(tsx?|mjs|css)$/);
  const long = new Map(files.map(([path, text]) => [path, lines(text)] as const).filter(([, n]) => n > limit));
  for (const [path, length] of long) {
    if ((reasons[path] ?? '').trim().length < 20)
      faults.push(`${path}:${length} is over ${limit} lines without a reason`);
  }
  for (const path of Object.keys(reasons)) {
    if (!long.has(path)) faults.push(`${list}:1 ${path} is not over ${limit} lines`);
  }
  return { read: files.length, faults };
}

const lines = (text: string): number => text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
