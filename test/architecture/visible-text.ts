import type { ESTree } from 'vite';
import { parseSource, visit } from './source.js';
import { type Findings, filesOf, isTest, type Tree } from './tree.js';

/** Attributes that are shown or read out. */
const shown = new Set([
  'aria-label',
  'aria-description',
  'aria-roledescription',
  'aria-valuetext',
  'title',
  'placeholder',
  'alt',
  'label',
  'description',
  'errorMessage',
]);
const hasLetters = (text: string): boolean => /\p{L}/u.test(text);

/** Words a person would see or hear that stand in a screen's source and not in the message catalogue. */
export function visibleTextFaults(tree: Tree): Findings {
  const faults: string[] = [];
  const files = filesOf(tree, /^src\/web\/.*\.tsx$/).filter(([path]) => !isTest(path));
  for (const [path, text] of files) {
    const { program, lineAt } = parseSource(path, text);
    const refuse = (node: ESTree.Node, words: string): void => {
      if (hasLetters(words)) faults.push(`${path}:${lineAt(node.start)} shows words of its own: ${words.trim()}`);
    };
    visit(program, (node) => {
      if (node.type === 'JSXText') refuse(node, node.value);
      if (node.type === 'JSXElement' || node.type === 'JSXFragment') {
        for (const child of node.children) {
          if (child.type === 'JSXExpressionContainer') literalsShown(child.expression, refuse);
        }
      }
      if (node.type === 'JSXAttribute' && shown.has(attributeName(node)) && node.value !== null) {
        literalsShown(node.value.type === 'JSXExpressionContainer' ? node.value.expression : node.value, refuse);
      }
      return undefined;
    });
  }
  return { read: files.length, faults };
}

/** Literal words an expression may turn into when it is shown. */
function literalsShown(node: ESTree.Node, refuse: (node: ESTree.Node, words: string) => void): void {
  if (node.type === 'Literal' && typeof node.value === 'string') refuse(node, node.value);
  if (node.type === 'TemplateLiteral') {
    for (const quasi of node.quasis) refuse(node, quasi.value.cooked ?? '');
  }
  if (node.type === 'ConditionalExpression') {
    literalsShown(node.consequent, refuse);
    literalsShown(node.alternate, refuse);
  }
  if (node.type === 'LogicalExpression' || (node.type === 'BinaryExpression' && node.operator === '+')) {
    literalsShown(node.left, refuse);
    literalsShown(node.right, refuse);
  }
}

const attributeName = (node: ESTree.JSXAttribute): string => (node.name.type === 'JSXIdentifier' ? node.name.name : '');
