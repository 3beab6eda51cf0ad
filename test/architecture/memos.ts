import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

/** The one place that remembers what was worked out; its key is its inputs. */
const home = 'src/core/derived.ts';

/** Memos with a key of their own making: what the key leaves out makes an old answer stand. */
export function memoFaults(tree: Tree): Findings {
  const files = filesOf(tree, source).filter(([path]) => path.startsWith('src/') && path !== home && !isTest(path));
  const faults = files.flatMap(([path, text]) =>
    text
      .split('\n')
      .flatMap((line, at) => (/\bnew WeakMap\b/.test(line) ? [`${path}:${at + 1} keeps a memo of its own`] : [])),
  );
  return { read: files.length, faults };
}
