import { parseSource, visit } from './source.js';
import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

/** Messages by chapter, as src/words/en gives them. That what is asked for is there, the compiler sees (src/core/said.ts). */
export type Chapters = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** Messages that nothing asks for: their key is no literal anywhere, and no text put together could become it. */
export function unsaidFaults(tree: Tree, chapters: Chapters): Findings {
  const files = filesOf(tree, source).filter(([path]) => !isTest(path) && !path.startsWith('src/words/'));
  const literals = new Set<string>();
  const shapes: RegExp[] = [];
  for (const [path, text] of files) gatherFrom(path, text, literals, shapes);
  const said = (key: string): boolean => literals.has(key) || shapes.some((shape) => shape.test(key));
  const faults = Object.entries(chapters).flatMap(([chapter, messages]) =>
    Object.keys(messages)
      .filter((key) => !said(key))
      .map((key) => `src/words/en/${chapter}.ts:1 ${key} is never said`),
  );
  return { read: files.length, faults };
}

function gatherFrom(path: string, text: string, literals: Set<string>, shapes: RegExp[]): void {
  visit(parseSource(path, text).program, (node) => {
    if (node.type === 'Literal' && typeof node.value === 'string') literals.add(node.value);
    if (node.type === 'TemplateLiteral') {
      const fixed = node.quasis.map((quasi) => quasi.value.cooked ?? '');
      // Only a text that begins with a chapter's name, as keys do: any other could become anything.
      if (fixed.length === 1) literals.add(fixed[0] ?? '');
      else if (/^[a-z][a-z-]*\./.test(fixed[0] ?? '')) shapes.push(shapeOf(fixed));
    }
    return undefined;
  });
}

const shapeOf = (fixed: readonly string[]): RegExp =>
  new RegExp(`^${fixed.map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('.+')}$`);
