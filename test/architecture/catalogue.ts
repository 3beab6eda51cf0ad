import type { ESTree } from 'vite';
import { argumentsIn, parsed } from '../../src/words/message.js';
import { parseSource, visit } from './source.js';
import { type Findings, filesOf, isTest, source, type Tree } from './tree.js';

/** Messages by chapter, as src/words/en gives them. */
export type Chapters = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** Where a sentence is asked for: its key, or the shape of its keys when part of it is only known at run time. */
interface Asked {
  readonly at: string;
  readonly key: string | RegExp;
  /** Names of the values that go with it; null when they cannot be told from the source. */
  readonly values: readonly string[] | null;
}

const speakers = new Set(['said', 'no', 't', 'say']);

/** Keys that are asked for and do not exist, and values that a sentence is said without. */
export function missingFaults(tree: Tree, chapters: Chapters): Findings {
  const messages = new Map(Object.values(chapters).flatMap((chapter) => Object.entries(chapter)));
  const { read, asked } = gather(tree);
  return { read, faults: asked.flatMap((one) => askedFaults(one, messages)) };
}

/** Messages that nothing asks for: their key is no literal anywhere, and no text put together could become it. */
export function unsaidFaults(tree: Tree, chapters: Chapters): Findings {
  const { read, literals, shapes } = gather(tree);
  const said = (key: string): boolean => literals.has(key) || shapes.some((shape) => shape.test(key));
  const faults = Object.entries(chapters).flatMap(([chapter, messages]) =>
    Object.keys(messages)
      .filter((key) => !said(key))
      .map((key) => `src/words/en/${chapter}.ts:1 ${key} is never said`),
  );
  return { read, faults };
}

function askedFaults({ at, key, values }: Asked, messages: ReadonlyMap<string, string>): string[] {
  if (typeof key !== 'string') {
    return [...messages.keys()].some((one) => key.test(one)) ? [] : [`${at} no message has a key like ${key.source}`];
  }
  const text = messages.get(key);
  if (text === undefined) return [`${at} there is no message ${key}`];
  if (values === null) return [];
  // An instant `at` is also given as `at_day` and `at_time` (src/words/say.ts).
  const given = new Set(values.flatMap((name) => [name, `${name}_day`, `${name}_time`]));
  const missing = [...argumentsIn(parsed(text)).keys()].filter((name) => !given.has(name));
  return missing.length === 0 ? [] : [`${at} ${key} is said without ${missing.join(', ')}`];
}

interface Gathered {
  readonly read: number;
  readonly asked: Asked[];
  readonly literals: Set<string>;
  readonly shapes: RegExp[];
}

function gather(tree: Tree): Gathered {
  const files = filesOf(tree, source).filter(([path]) => !isTest(path) && !path.startsWith('src/words/'));
  const gathered: Gathered = { read: files.length, asked: [], literals: new Set(), shapes: [] };
  for (const [path, text] of files) gatherFrom(path, text, gathered);
  return gathered;
}

function gatherFrom(path: string, text: string, { asked, literals, shapes }: Gathered): void {
  const { program, lineAt } = parseSource(path, text);
  const ask = (node: ESTree.Node | undefined, values: readonly string[] | null): void => {
    if (node === undefined) return;
    for (const key of keysOf(node)) asked.push({ at: `${path}:${lineAt(node.start)}`, key, values });
  };
  visit(program, (node) => {
    if (node.type === 'Literal' && typeof node.value === 'string') literals.add(node.value);
    // Only a text that begins with a chapter's name, as keys do: any other could become anything.
    if (node.type === 'TemplateLiteral' && /^[a-z][a-z-]*\./.test(node.quasis[0]?.value.cooked ?? '')) {
      for (const key of keysOf(node)) if (typeof key !== 'string') shapes.push(key);
    }
    if (node.type === 'CallExpression' && speakers.has(calleeName(node))) {
      const [key, values] = node.arguments;
      ask(key, values === undefined ? [] : namesOf(values));
    }
    if (node.type === 'Property' && nameOf(node.key) === 'say') ask(node.value, null);
    if (node.type === 'JSXAttribute' && node.name.name === 'say' && node.value !== null) ask(node.value, null);
    return undefined;
  });
}

/** `say(...)`, and `words.say(...)`; of the short names only the plain ones, as many things have a method `t` or `no`. */
function calleeName(call: ESTree.CallExpression): string {
  const { callee } = call;
  if (callee.type === 'Identifier') return callee.name;
  if (callee.type !== 'MemberExpression' || callee.property.type !== 'Identifier') return '';
  return ['say', 'said'].includes(callee.property.name) ? callee.property.name : '';
}

function keysOf(node: ESTree.Node): (string | RegExp)[] {
  if (node.type === 'Literal') return typeof node.value === 'string' ? [node.value] : [];
  if (node.type === 'ConditionalExpression') return [...keysOf(node.consequent), ...keysOf(node.alternate)];
  if (node.type === 'LogicalExpression') return [...keysOf(node.left), ...keysOf(node.right)];
  if (node.type !== 'TemplateLiteral') return [];
  const fixed = node.quasis.map((quasi) => quasi.value.cooked ?? '');
  if (fixed.length === 1) return [fixed[0] ?? ''];
  // A key that is all variable tells nothing; the parts it is made of are literals somewhere else.
  if (fixed.join('') === '') return [];
  return [new RegExp(`^${fixed.map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('.+')}$`)];
}

function namesOf(node: ESTree.Node): string[] | null {
  if (node.type !== 'ObjectExpression') return null;
  const names = node.properties.map((one) => (one.type === 'Property' && !one.computed ? nameOf(one.key) : null));
  return names.every((name) => name !== null) ? names : null;
}

function nameOf(key: ESTree.Node): string | null {
  if (key.type === 'Identifier') return key.name;
  return key.type === 'Literal' && typeof key.value === 'string' ? key.value : null;
}
