import { parseSync } from 'vite';

/**
 * Puts every mutant of a file into the file itself, each asleep until its number is named: `a < b` becomes
 * `$.less(12, a, b)`, which says `a <= b` when mutant 12 is awake. One bundle then serves for all of them.
 */
const swapped = {
  '<': 'less',
  '<=': 'lessOrSame',
  '>': 'more',
  '>=': 'moreOrSame',
  '===': 'same',
  '!==': 'other',
  '+': 'plus',
  '-': 'minus',
  '*': 'times',
};
const told = {
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '===': '!==',
  '!==': '===',
  '+': '-',
  '-': '+',
  '*': '/',
  '&&': '||',
  '||': '&&',
};
const methods = {
  some: 'every',
  every: 'some',
  findLast: 'find',
  max: 'min',
  min: 'max',
  floor: 'ceil',
  ceil: 'floor',
};

/** Schemas say what form a file has; their sizes are no rules of the engine. */
const isSchema = (text) => /^z\b/.test(text);

export function instrument(path, text, mutants) {
  const { program, errors } = parseSync(path, text, { lang: 'ts', sourceType: 'module' });
  if (errors.some((one) => one.severity === 'Error')) throw new Error(`${path} does not parse`);
  const lines = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const lineAt = (offset) => lines.findLastIndex((start) => start <= offset) + 1;
  /** Names of the functions and constants around, the outermost first: a place keeps its name when lines move. */
  const around = [];
  const add = (node, from, to) => {
    const id = mutants.length + 1;
    mutants.push({ id, path, line: lineAt(node.start), within: around[0] ?? '', from, to });
    return id;
  };
  const source = (node) => text.slice(node.start, node.end);

  /** The text of a node with everything below it instrumented. */
  const render = (node) => {
    const name = /^(FunctionDeclaration|VariableDeclarator)$/.test(node.type) ? node.id?.name : undefined;
    if (name === undefined) return own(node) ?? inside(node);
    around.push(name);
    const text = own(node) ?? inside(node);
    around.pop();
    return text;
  };
  const inside = (node) => {
    let out = '';
    let at = node.start;
    for (const child of childrenOf(node)) {
      out += text.slice(at, child.start) + render(child);
      at = child.end;
    }
    return out + text.slice(at, node.end);
  };
  const own = (node) => {
    switch (node.type) {
      case 'BinaryExpression': {
        const name = swapped[node.operator];
        if (name === undefined) return null;
        if (node.operator === '+' && isText(node)) return null;
        const id = add(node, source(node), `... ${told[node.operator]} ...`);
        return `$.${name}(${id}, ${render(node.left)}, ${render(node.right)})`;
      }
      case 'LogicalExpression': {
        const [left, right] = [render(node.left), render(node.right)];
        const id = add(
          node,
          source(node),
          node.operator === '??' ? 'only the right side' : `... ${told[node.operator]} ...`,
        );
        const name = node.operator === '??' ? 'orElse' : node.operator === '&&' ? 'and' : 'or';
        return `$.${name}(${id}, ${left}, () => (${right}))`;
      }
      case 'UnaryExpression':
        if (node.operator !== '!') return null;
        return `$.not(${add(node, source(node), 'without !')}, ${render(node.argument)})`;
      case 'ConditionalExpression': {
        const id = add(node.test, `${source(node.test)} ? :`, 'the other way');
        return `($.test(${id}, ${render(node.test)}) ? ${render(node.consequent)} : ${render(node.alternate)})`;
      }
      case 'IfStatement': {
        const id = add(node.test, `if (${source(node.test)})`, 'the other way');
        const rest = node.alternate === null ? '' : ` else ${render(node.alternate)}`;
        return `if ($.test(${id}, ${render(node.test)})) ${render(node.consequent)}${rest}`;
      }
      case 'Literal':
        if (typeof node.value === 'number')
          return `$.number(${add(node, source(node), String(node.value + 1))}, ${source(node)})`;
        if (typeof node.value === 'boolean')
          return `$.not2(${add(node, source(node), String(!node.value))}, ${source(node)})`;
        return null;
      case 'CallExpression': {
        if (isSchema(source(node))) return source(node);
        const { callee } = node;
        const name = callee.type === 'MemberExpression' && !callee.computed ? callee.property.name : undefined;
        const other = name === undefined ? undefined : methods[name];
        if (other === undefined || callee.optional || node.optional) return null;
        const id = add(node, `.${name}(`, `.${other}(`);
        const args = node.arguments.map(render).join(', ');
        return `${render(callee.object)}[$.name(${id}, '${name}', '${other}')](${args})`;
      }
      case 'ExpressionStatement': {
        if (node.expression.type === 'Literal') return source(node);
        const id = add(node, source(node), 'left out');
        return `{ if ($.awake(${id})) ${inside(node)} }`;
      }
      default:
        return null;
    }
  };
  return render(program);
}

const isText = (node) =>
  [node.left, node.right].some(
    (side) =>
      side.type === 'TemplateLiteral' ||
      (side.type === 'Literal' && typeof side.value === 'string') ||
      (side.type === 'BinaryExpression' && side.operator === '+' && isText(side)),
  );

/** Types are left alone: nothing of them runs. */
const noCode = /^(TS|ImportDeclaration|ExportAllDeclaration)/;
const stillCode = new Set(['TSAsExpression', 'TSSatisfiesExpression', 'TSNonNullExpression']);

function childrenOf(node) {
  const children = [];
  for (const [key, value] of Object.entries(node)) {
    if (key === 'typeAnnotation' || key === 'returnType' || key === 'typeParameters' || key === 'typeArguments')
      continue;
    for (const one of Array.isArray(value) ? value : [value]) {
      if (typeof one !== 'object' || one === null || typeof one.type !== 'string') continue;
      if (noCode.test(one.type) && !stillCode.has(one.type)) continue;
      children.push(one);
    }
  }
  // A shorthand property is one text with two nodes.
  const sorted = children.sort((a, b) => a.start - b.start || b.end - a.end);
  return sorted.filter((one, at) => at === 0 || one.start >= sorted[at - 1].end);
}
