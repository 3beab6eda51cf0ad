import { expect, test } from 'vitest';
import { cycleFaults } from './cycles.js';
import { layerFaults, layers, referenceFaults } from './layers.js';
import { packageFaults } from './packages.js';
import { expectClean, planted, projectTree } from './tree.js';

const manifest = JSON.stringify({ dependencies: { zod: '4', papaparse: '5' }, devDependencies: { vitest: '4' } });
const faultsOf = (files: Record<string, string>) => layerFaults(planted({ 'package.json': manifest, ...files })).faults;

test('imports keep the order of the layers and the list of packages', () => {
  expectClean(layerFaults(projectTree()), 60);
});

test('every tsconfig names exactly the layers it may import', () => {
  expectClean(referenceFaults(projectTree()), Object.keys(layers).length);
});

test('no file imports itself over others', () => {
  expectClean(cycleFaults(projectTree()), 60);
});

test('every package has its reason written down', () => {
  expectClean(packageFaults(projectTree()), 20);
});

test('refuses a package that has no reason', () => {
  const tree = planted({
    'package.json': manifest,
    'docs/decisions/0003-packages.md': '| zod | schemas |\n\nvitest, papaparse-like',
  });
  expect(packageFaults(tree).faults).toEqual([
    'package.json:1 the reason for papaparse is not in docs/decisions/0003-packages.md',
  ]);
});

test.each([
  ['against the arrow', 'src/core/a.ts', `import { b } from '../log/b.js';`, 'core may not import log'],
  ['server to web', 'src/server/a.ts', `export * from '../web/b.js';`, 'server may not import web'],
  ['web to server', 'src/web/a.tsx', `const b = import('../server/b.js');`, 'web may not import server'],
  [
    'by type only, of a layer not to import at all',
    'src/api/a.ts',
    `type B = import('../store/b.js').B;`,
    'api may not import store',
  ],
  ['of a sentence in core', 'src/core/a.ts', `import { due } from '../words/en/b.js';`, 'may import types of words/en'],
  [
    'of a name beside a type',
    'src/core/a.ts',
    `import { type Due } from '../words/en/b.js';`,
    'may import types of words',
  ],
  ['of words in core', 'src/core/a.ts', `import type { Say } from '../words/say.js';`, 'core may not import words'],
  [
    'from among the messages',
    'src/words/en/a/b.ts',
    `import { a } from '../../say.js';`,
    'words/en may not import words',
  ],
  ['out of src', 'src/core/a.ts', `export { b } from '../../test/b.js';`, 'core may not import test/b.js'],
  ['a screen in a paper', 'src/papers/sheet/a.ts', `import { b } from '../../web/b.js';`, 'papers may not import web'],
  ['what draws in a paper', 'src/papers/a.ts', `import { z } from 'zod';`, 'a package papers may not use'],
  ['a paper in a file', 'src/exports/a.ts', `import { b } from '../papers/b.js';`, 'exports may not import papers'],
  ['a screen in a sentence', 'src/told/a.ts', `import { b } from '../web/b.js';`, 'told may not import web'],
  ['without .js', 'src/core/a.ts', `import { b } from './b';`, 'does not end in .js'],
  ['Node in core', 'src/core/a.ts', `import { readFileSync } from 'node:fs';`, 'a package core may not use'],
  ['Node without its prefix', 'src/store/a.ts', `import 'fs';`, 'does not declare'],
  ['package of another place', 'src/core/dosing/a.ts', `import p from 'papaparse';`, 'a package core may not use'],
  ['package of no layer', 'src/demo/a.ts', `import { z } from 'zod';`, 'a package demo may not use'],
  ['not declared', 'src/core/a.ts', `import x from 'left-out/sub';`, 'does not declare'],
  ['for development only', 'src/core/a.ts', `import { test } from 'vitest';`, 'does not declare'],
  ['no layer at all', 'src/a.ts', 'export const a = 1;', 'is in no layer'],
])('refuses an import %s', (_, path, text, why) => {
  const faults = faultsOf({ [path]: text });
  expect(faults).toHaveLength(1);
  expect(faults[0]).toContain(`${path}:1 `);
  expect(faults[0]).toContain(why);
});

test('lets the allowed ones through', () => {
  expect(
    faultsOf({
      'src/core/intake/a.ts': `import p from 'papaparse'; import { z } from 'zod'; import { b } from '../b.js';`,
      'src/core/b.ts': `import type { Due } from '../words/en/b.js'; type A = import('../words/en/a.js').A;`,
      'src/core/a.test.ts': `import { test } from 'vitest'; import { readFileSync } from 'node:fs';`,
      'src/web/a.tsx': `import './a.css'; import { b } from '../words/b.js';`,
    }),
  ).toEqual([]);
});

test('refuses a tsconfig that refers to another layer than it may import', () => {
  const tree = planted({ 'src/log/tsconfig.json': '{"references":[{"path":"../core"},{"path":"../store"}]}' });
  expect(referenceFaults(tree).faults).toEqual([
    'src/log/tsconfig.json:1 refers to core, store; the layer may import core',
  ]);
});

test('refuses a circle, also one of types and one over three files', () => {
  const tree = planted({
    'src/core/a.ts': `import type { B } from './b.js';`,
    'src/core/b.ts': `import { c } from './c.js';`,
    'src/core/c.ts': `export * from './a.js';`,
    'src/core/d.ts': `import { a } from './a.js';`,
  });
  expect(cycleFaults(tree).faults).toEqual([
    'src/core/a.ts:1 imports itself: src/core/a.ts -> src/core/b.ts -> src/core/c.ts -> src/core/a.ts',
  ]);
});

test('a file that does not parse is an error, not a pass', () => {
  expect(() => faultsOf({ 'src/core/a.ts': 'const = ;' })).toThrow('does not parse');
});
