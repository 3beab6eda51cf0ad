import type { Findings, Tree } from './tree.js';

/** Built from pieces, so that this file does not hold what it looks for. */
const folder = (name: string): RegExp => new RegExp(`(^|[^\\w.~-])/${name}/[\\w.-]`);
const refused: readonly { readonly pattern: RegExp; readonly why: string }[] = [
  ...['work', 'tmp', 'root', 'home', 'Users', 'mnt', 'workspace'].map((name) => ({
    pattern: folder(name),
    why: 'a folder of one machine',
  })),
  { pattern: /[A-Z]:\\\\?Users\\/, why: 'a folder of one machine' },
  {
    pattern: /(registry\.|npmjs|yarnpkg|pypi|artifactory|verdaccio|nexus)[\w.-]*\.(org|com|io|net|local|internal)\b/,
    why: 'the host of a registry',
  },
];

/** Lines that hold a path or a host of the machine the work was done on. */
export function foreignWordFaults(tree: Tree): Findings {
  const faults: string[] = [];
  for (const [path, text] of tree) {
    if (!refused.some(({ pattern }) => new RegExp(pattern, 'm').test(text))) continue;
    for (const [index, line] of text.split('\n').entries()) {
      const found = refused.find(({ pattern }) => pattern.test(line));
      if (found !== undefined) faults.push(`${path}:${index + 1} has ${found.why}: ${line.trim().slice(0, 80)}`);
    }
  }
  return { read: tree.size, faults };
}
