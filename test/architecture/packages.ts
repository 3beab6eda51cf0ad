import type { Findings, Tree } from './tree.js';

const page = 'docs/decisions/0003-packages.md';

/** Packages whose reason stands nowhere (types of a package need none). */
export function packageFaults(tree: Tree): Findings {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(tree.get('package.json') ?? '{}') as Record<
    string,
    Record<string, string>
  >;
  const reasons = tree.get(page) ?? '';
  const names = [...Object.keys(dependencies), ...Object.keys(devDependencies)].filter(
    (one) => !one.startsWith('@types/'),
  );
  const named = (name: string): boolean => reasons.split(/[\s,|();:]+|\.\s/).includes(name);
  return {
    read: names.length,
    faults: names
      .filter((name) => !named(name))
      .map((name) => `package.json:1 the reason for ${name} is not in ${page}`),
  };
}
