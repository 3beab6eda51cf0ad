import { IntlMessageFormat } from 'intl-messageformat';

/** How a message uses a value: as it stands, as a number, to choose a plural, or to choose among words. */
export type ArgumentUse = 'plain' | 'number' | 'plural' | 'select' | 'date';

type Node = ReturnType<IntlMessageFormat['getAst']>[number];
/** The parser's numbers for its kinds of node; they are part of its published tree. */
const uses: Readonly<Record<number, ArgumentUse>> = {
  1: 'plain',
  2: 'number',
  3: 'date',
  4: 'date',
  5: 'select',
  6: 'plural',
};

/** The values that a parsed message asks for, by name. */
export function argumentsIn(message: readonly Node[]): Map<string, ArgumentUse> {
  const found = new Map<string, ArgumentUse>();
  const walk = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      const use = uses[node.type];
      if (use !== undefined && 'value' in node && !found.has(node.value)) found.set(node.value, use);
      if ('options' in node) for (const option of Object.values(node.options)) walk(option.value);
    }
  };
  walk(message);
  return found;
}

/** Throws a SyntaxError when the message is not well-formed ICU. */
export const parsed = (text: string): Node[] =>
  new IntlMessageFormat(text, 'en', undefined, { ignoreTag: true }).getAst();

/** A message without plurals, choices and quotes is cut at its braces once and put together from then on. */
export function plainParts(text: string): string[] | null {
  const plain = /^[^{}']*(\{\w+\}[^{}']*)*$/.test(text);
  return plain ? text.split(/[{}]/) : null;
}
