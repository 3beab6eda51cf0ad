import { parseSource } from './source.js';
import { type Findings, filesOf, source, type Tree } from './tree.js';

const page = 'docs/decisions/0003-packages.md';

/** Packages that no import names, with the reason why they are there. */
const unnamed: Readonly<Record<string, string>> = {
  'openapi-types': 'the types of @fastify/swagger are written in it',
};

/** Packages that run and that nothing imports, and packages whose reason stands nowhere (types of a package need none). */
export function packageFaults(tree: Tree): Findings {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(tree.get('package.json') ?? '{}') as Record<
    string,
    Record<string, string>
  >;
  const reasons = tree.get(page) ?? '';
  const names = [...Object.keys(dependencies), ...Object.keys(devDependencies)].filter(
    (one) => !one.startsWith('@types/'),
  );
  const imported = filesOf(tree, source).flatMap(([path, text]) =>
    parseSource(path, text).imports.map((one) => one.from),
  );
  const idle = Object.keys(dependencies).filter(
    (name) => !Object.hasOwn(unnamed, name) && !imported.some((from) => from === name || from.startsWith(`${name}/`)),
  );
  const named = (name: string): boolean => reasons.split(/[\s,|();:]+|\.\s/).includes(name);
  return {
    read: names.length,
    faults: [
      ...idle.map((name) => `package.json:1 ${name} is imported nowhere`),
      ...names.filter((name) => !named(name)).map((name) => `package.json:1 the reason for ${name} is not in ${page}`),
    ],
  };
}
