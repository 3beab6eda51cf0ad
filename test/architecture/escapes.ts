import { parseSource, visit } from './source.js';
import { type Findings, filesOf, source, type Tree } from './tree.js';

/** Where the compiler is told to look away: `any`, a non-null `!`, a ts-comment; a lint switch must say why. */
export function escapeFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const files = filesOf(tree, source);
  for (const [path, text] of files) {
    const { program, comments, lineAt } = parseSource(path, text);
    visit(program, (node) => {
      if (node.type === 'TSAnyKeyword') faults.push(`${path}:${lineAt(node.start)} says any`);
      if (node.type === 'TSNonNullExpression')
        faults.push(`${path}:${lineAt(node.start)} says ! of what may be missing`);
      return undefined;
    });
    for (const comment of comments) {
      const order = /@ts-(ignore|expect-error|nocheck)/.exec(comment.text);
      if (order !== null) faults.push(`${path}:${comment.line} has ${order[0]}`);
      if (/biome-ignore[^:]*$|biome-ignore[^:]*:\s*(\S+\s*){0,2}$/.test(comment.text)) {
        faults.push(`${path}:${comment.line} has a lint switch without a reason`);
      }
    }
  }
  return { read: files.length, faults };
}
