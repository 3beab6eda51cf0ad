import { describe, expect, test } from 'vitest';
import { reachFaults, starts } from './reach.js';
import { expectClean, planted, projectTree } from './tree.js';

describe('published values', () => {
  test('are put to what people run', () => {
    expect(starts.filter((path) => !projectTree().has(path))).toEqual([]);
    expectClean(reachFaults(projectTree()), 10);
  });

  const product = {
    'src/cli/main.ts': `import { run } from '../core/run.js';\nrun();`,
    'src/core/run.ts': `import type { Kind } from './idle.js';\nconst inner = () => 1;\nexport { inner };\nexport const run = () => inner();\nexport const alone = () => 2;`,
    'src/core/idle.ts': 'export type Kind = 1;\nexport const idle = () => 3;',
  };
  const asking = (text: string) => reachFaults(planted({ ...product, 'test/reference/published/a.ts': text })).faults;

  test('are let through where a start reaches what they ask, or it is used where it stands', () => {
    expect(asking(`import { inner, run } from '../../../src/core/run.js';`)).toEqual([]);
    expect(asking(`import type { Kind } from '../../../src/core/idle.js';`)).toEqual([]);
  });

  test.each([
    [
      'of a module that nothing reaches',
      `import { idle } from '../../../src/core/idle.js';`,
      'idle of src/core/idle.ts',
    ],
    ['that nobody calls', `import { alone } from '../../../src/core/run.js';`, 'alone of src/core/run.ts'],
  ])('a function %s is refused', (_, text, what) => {
    expect(asking(text)).toEqual([`test/reference/published/a.ts:1 asks ${what}, which nobody runs`]);
  });
});
