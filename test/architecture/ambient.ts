import type { ESTree } from 'vite';
import { parseSource, visit } from './source.js';
import { type Findings, filesOf, isTest, type Tree } from './tree.js';

const pure = /^src\/(core|log|api|words|told|papers|exports|demo)\/.*\.tsx?$/;

/** Names of the platform that bring in the clock, chance or the machine. Today, now and random are arguments. */
const banned = new Set(['Date', 'crypto', 'performance', 'globalThis', 'process', 'setTimeout', 'setInterval']);
const bannedMembers = new Set(['Math.random', 'Temporal.Now']);
/** Methods that read the language of the machine unless told one: the number of arguments that tells them. */
const readsLocale: Readonly<Record<string, number>> = {
  localeCompare: 2,
  toLocaleString: 1,
  toLocaleDateString: 1,
  toLocaleTimeString: 1,
  toLocaleLowerCase: 1,
  toLocaleUpperCase: 1,
};

/** Where a pure layer asks the machine for the time, for chance or for its language. */
export function ambientFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const files = filesOf(tree, pure).filter(([path]) => !isTest(path));
  for (const [path, text] of files) {
    const { program, lineAt } = parseSource(path, text);
    const refuse = (node: ESTree.Node, what: string): void => {
      faults.push(`${path}:${lineAt(node.start)} uses ${what}`);
    };
    visit(program, (node) => {
      const member = memberName(node);
      if (member !== null && bannedMembers.has(member)) refuse(node, member);
      const locale = localeRead(node);
      if (locale !== null) refuse(node, `${locale} in the language of the machine`);
      const name = platformName(node);
      if (name !== null) refuse(node, name);
      return undefined;
    });
  }
  return { read: files.length, faults };
}

function memberName(node: ESTree.Node): string | null {
  if (node.type === 'TSQualifiedName' && node.left.type === 'Identifier') return `${node.left.name}.${node.right.name}`;
  if (node.type !== 'MemberExpression' || node.object.type !== 'Identifier') return null;
  const { property } = node;
  if (property.type === 'Identifier') return `${node.object.name}.${property.name}`;
  return property.type === 'Literal' ? `${node.object.name}.${property.value}` : null;
}

function localeRead(node: ESTree.Node): string | null {
  if (node.type === 'NewExpression' && memberName(node.callee)?.startsWith('Intl.') && node.arguments.length === 0) {
    return memberName(node.callee);
  }
  if (node.type !== 'CallExpression' || node.callee.type !== 'MemberExpression') return null;
  const { property } = node.callee;
  if (property.type !== 'Identifier' || !Object.hasOwn(readsLocale, property.name)) return null;
  return node.arguments.length < (readsLocale[property.name] ?? 0) ? property.name : null;
}

/** A banned name where it stands for the platform's own: used as a value or a type, not as the name of a member. */
function platformName(node: ESTree.Node): string | null {
  const used = [
    node.type === 'NewExpression' || node.type === 'CallExpression' ? node.callee : null,
    node.type === 'MemberExpression' ? node.object : null,
    node.type === 'TSTypeReference' ? node.typeName : null,
    node.type === 'BinaryExpression' && node.operator === 'instanceof' ? node.right : null,
    node.type === 'VariableDeclarator' ? node.init : null,
    ...(node.type === 'CallExpression' || node.type === 'NewExpression' ? node.arguments : []),
  ];
  const found = used.find((one) => one?.type === 'Identifier' && banned.has(one.name));
  return found?.type === 'Identifier' ? found.name : null;
}
