import { type Findings, filesOf, type Tree } from './tree.js';

/** Pages of rules that the table of rules does not lead to. */
export function ruleTableFaults(tree: Tree): Findings {
  const table = tree.get('docs/rules.md') ?? '';
  const pages = filesOf(tree, /^docs\/rules\/.*\.md$/).map(([path]) => path.slice('docs/'.length));
  return {
    read: pages.length,
    faults: pages
      .filter((page) => !table.includes(`](${page})`))
      .map((page) => `docs/rules.md does not lead to ${page}`),
  };
}

/** Folders at the top, layers and chapters of the trade that the README does not say where to look for. */
export function readmeFaults(tree: Tree): Findings {
  const readme = tree.get('README.md') ?? '';
  const folders = new Set(
    [...tree.keys()].flatMap((path) => {
      const [top = '', layer, room, ...more] = path.split('/');
      if (layer === undefined || top.startsWith('.')) return [];
      if (top !== 'src') return [`${top}/`];
      if (room === undefined) return [];
      return layer === 'core' && more.length > 0 ? [`src/${layer}/`, room] : [`src/${layer}/`];
    }),
  );
  return {
    read: folders.size,
    faults: [...folders].filter((one) => !readme.includes(`\`${one}\``)).map((one) => `README.md does not name ${one}`),
  };
}
