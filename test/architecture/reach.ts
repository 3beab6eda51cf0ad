import { dirname, join } from 'node:path/posix';
import type { ESTree } from 'vite';
import { parseSource, visit } from './source.js';
import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

/** What a person starts: the command line (and with it the server), the web app, and its planner beside the page. */
export const starts = ['src/cli/main.ts', 'src/web/main.tsx', 'src/web/plan/plan.worker.ts'];
/** Who puts the published values to the product, and the engine of treatments that they are put to. */
const asks = /^test\/(reference\/(published\/|asking-)|support\/protocol\.ts$)/;

interface Taken {
  readonly from: string;
  readonly name: string;
  readonly line: number;
}

/**
 * A published value is asked of what people run. Every function that those who ask take from src is one that a module
 * reached from a start takes too, or uses itself; code that only tests reach would prove nothing.
 */
export function reachFaults(tree: Tree): Findings {
  const modules = new Map(filesOf(tree, source).filter(([path]) => !isTest(path)));
  const reached = reachedFrom(
    tree,
    modules,
    starts.filter((path) => modules.has(path)),
  );
  const taken = new Set(
    [...reached].flatMap((path) =>
      takes(tree, path, modules.get(path) ?? '').map(({ from, name }) => `${from} ${name}`),
    ),
  );
  const askers = filesOf(tree, asks);
  const faults = askers.flatMap(([path, text]) =>
    takes(tree, path, text)
      .filter(({ from }) => modules.has(from))
      .filter(
        ({ from, name }) => !taken.has(`${from} ${name}`) && !(reached.has(from) && usesItself(from, modules, name)),
      )
      .map(({ from, name, line }) => `${path}:${line} asks ${name} of ${from}, which nobody runs`),
  );
  return { read: askers.length, faults };
}

function reachedFrom(tree: Tree, modules: ReadonlyMap<string, string>, from: readonly string[]): ReadonlySet<string> {
  const reached = new Set<string>();
  const waiting = [...from];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (reached.has(path)) continue;
    reached.add(path);
    const text = modules.get(path) ?? '';
    for (const { from: spec } of parseSource(path, text).imports) waiting.push(...fileOf(tree, path, spec));
  }
  return reached;
}

function fileOf(tree: Tree, path: string, spec: string): string[] {
  if (!spec.startsWith('.') || !spec.endsWith('.js')) return [];
  const stem = join(dirname(path), spec).slice(0, -'.js'.length);
  return [`${stem}.ts`, `${stem}.tsx`].filter((one) => tree.has(one));
}

/** Names of values that a file takes from others; types say nothing about what runs. */
function takes(tree: Tree, path: string, text: string): Taken[] {
  const { program, lineAt } = parseSource(path, text);
  return program.body.flatMap((node): Taken[] => {
    if (node.type !== 'ImportDeclaration' || node.importKind === 'type') return [];
    const [from] = fileOf(tree, path, node.source.value);
    if (from === undefined) return [];
    return node.specifiers.flatMap((one): Taken[] => {
      if (one.type !== 'ImportSpecifier' || one.importKind === 'type') return [];
      const name = one.imported.type === 'Identifier' ? one.imported.name : String(one.imported.value);
      return [{ from, name, line: lineAt(one.start) }];
    });
  });
}

/** Whether a module uses a name of its own outside of the statement that declares it. */
function usesItself(path: string, modules: ReadonlyMap<string, string>, name: string): boolean {
  const { program } = parseSource(path, modules.get(path) ?? '');
  return program.body.some((node) => !declares(node, name) && mentions(node, name));
}

function mentions(node: ESTree.Node, name: string): boolean {
  let found = false;
  visit(node, (one) => {
    if (one.type === 'Identifier' && one.name === name) found = true;
    return undefined;
  });
  return found;
}

function declares(node: ESTree.Node, name: string): boolean {
  const of = node.type === 'ExportNamedDeclaration' ? node.declaration : node;
  if (of === null || of === undefined) return false;
  if (of.type === 'FunctionDeclaration') return of.id?.name === name;
  return (
    of.type === 'VariableDeclaration' && of.declarations.some(({ id }) => id.type === 'Identifier' && id.name === name)
  );
}
