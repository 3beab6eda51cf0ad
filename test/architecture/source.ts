import { type ESTree, parseSync } from 'vite';

/** One TypeScript file, parsed. The bundler's own parser reads it: TypeScript 7 offers none. */
export interface Source {
  readonly program: ESTree.Program;
  readonly imports: readonly Import[];
  readonly comments: readonly { readonly text: string; readonly line: number }[];
  readonly lineAt: (offset: number) => number;
}
export interface Import {
  readonly from: string;
  readonly line: number;
  /** Nothing of it is left when the program runs. */
  readonly typeOnly: boolean;
}

const parsed = new Map<string, Source>();

/** Throws when the file does not parse: a gate that skips what it cannot read would pass. */
export function parseSource(path: string, text: string): Source {
  const key = `${path}\0${text}`;
  const before = parsed.get(key);
  if (before !== undefined) return before;
  const result = parseSync(path, text, { lang: path.endsWith('x') ? 'tsx' : 'ts', sourceType: 'module' });
  const error = result.errors.find((one) => one.severity === 'Error');
  if (error !== undefined) throw new Error(`${path} does not parse: ${error.message}`);
  const starts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const lineAt = (offset: number): number => starts.findLastIndex((start) => start <= offset) + 1;
  const made: Source = {
    program: result.program,
    imports: importsOf(result.program, lineAt),
    comments: result.comments.map((comment) => ({ text: comment.value, line: lineAt(comment.start) })),
    lineAt,
  };
  parsed.set(key, made);
  return made;
}

/** Every node below one, itself included, parents first; `see` may answer false to leave out what is below. */
export function visit(node: ESTree.Node, see: (node: ESTree.Node) => false | undefined): void {
  if (see(node) === false) return;
  for (const child of Object.values(node)) {
    for (const one of Array.isArray(child) ? child : [child]) if (isNode(one)) visit(one, see);
  }
}

const isNode = (value: unknown): value is ESTree.Node =>
  typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';

/** Everything a file takes from elsewhere: imports, re-exports, `import()` and types by `import('...')`. */
function importsOf(program: ESTree.Program, lineAt: (offset: number) => number): Import[] {
  const found: Import[] = [];
  visit(program, (node) => {
    const from = isImport(node) ? node.source : null;
    if (from?.type === 'Literal' && typeof from.value === 'string') {
      found.push({ from: from.value, line: lineAt(node.start), typeOnly: isTypeOnly(node) });
    }
    return undefined;
  });
  return found;
}

function isTypeOnly(node: ESTree.Node): boolean {
  if (node.type === 'ImportDeclaration') return node.importKind === 'type';
  if (node.type === 'ExportAllDeclaration' || node.type === 'ExportNamedDeclaration') return node.exportKind === 'type';
  return node.type === 'TSImportType';
}

type ImportNode =
  | ESTree.ImportDeclaration
  | ESTree.ExportAllDeclaration
  | ESTree.ExportNamedDeclaration
  | ESTree.ImportExpression
  | ESTree.TSImportType;

const isImport = (node: ESTree.Node): node is ImportNode =>
  ['ImportDeclaration', 'ExportAllDeclaration', 'ExportNamedDeclaration', 'ImportExpression', 'TSImportType'].includes(
    node.type,
  );
