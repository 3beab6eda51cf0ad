import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectClean, planted, projectTree } from './tree.js';
import { askedOfWaiting, unusedFaults, unusedIn, waitingList } from './unused.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('what nothing uses', () => {
  test('is not in the product, apart from what is said to wait', async () => {
    expect(unusedFaults(await unusedIn(root, 'production'), waitingList())).toEqual([]);
  });

  test('is not in tests and benchmarks either', async () => {
    expect(await unusedIn(root, 'anybody')).toEqual([]);
  });

  const waiting = { name: 'src/core/idle.ts', issue: 3, reason: 'waits' };

  test('may wait with a piece of work and a reason, as long as it is there and unused', () => {
    expect(unusedFaults(['src/core/idle.ts'], [waiting])).toEqual([]);
    expect(unusedFaults(['src/core/idle.ts', 'one in src/core/b.ts'], [waiting])).toEqual([
      'one in src/core/b.ts is used by nothing that runs',
    ]);
    expect(unusedFaults([], [waiting])[0]).toMatch(/^src\/core\/idle.ts is used, or gone/);
    for (const wrong of [{ issue: 0 }, { reason: ' ' }])
      expect(unusedFaults(['src/core/idle.ts'], [{ ...waiting, ...wrong }])).toEqual([
        'src/core/idle.ts waits without a piece of work or a reason',
      ]);
  });
});

describe('a planted project', () => {
  let folder = '';
  const files = {
    'package.json': '{ "name": "planted", "type": "module", "dependencies": { "zod": "*", "uuid": "*" } }',
    'src/cli/main.ts': `import { z } from 'zod';\nimport { run } from '../core/run.js';\nrun(z);`,
    'src/web/main.tsx': `import { drawn } from '../core/drawn.js';\ndrawn();`,
    'src/core/run.ts': `export const inner = () => 1;\nexport const run = (_: unknown) => inner();\nexport const alone = () => 2;\nexport type Alone = 1;`,
    'src/core/drawn.ts': 'export const drawn = () => 1;\nexport const tested = () => 2;',
    'src/core/idle.ts': 'export const idle = () => 3;',
    'src/core/idle.test.ts': `import { tested } from './drawn.js';\nimport { idle } from './idle.js';\nidle();\ntested();`,
    'bench/fast.ts': `import { help } from '../test/support/help.js';\nhelp();`,
    'test/support/help.ts': 'export const help = () => 1;\nexport const nobody = () => 2;',
  };
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'roundhand-unused-'));
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('has what only tests use, what nobody uses, and a package that nothing imports', async () => {
    expect(await unusedIn(folder, 'production')).toEqual([
      'Alone in src/core/run.ts',
      'alone in src/core/run.ts',
      'src/core/idle.ts',
      'tested in src/core/drawn.ts',
      'uuid in package.json',
    ]);
    expect(await unusedIn(folder, 'anybody')).toEqual([
      'Alone in src/core/run.ts',
      'alone in src/core/run.ts',
      'nobody in test/support/help.ts',
      'uuid in package.json',
    ]);
  });
});

describe('published values', () => {
  test('are put to what people run', () => {
    expectClean(askedOfWaiting(projectTree(), waitingList()), 10);
  });

  test.each([
    [`import { idle } from '../../../src/core/idle.js';`, 'src/core/idle.ts'],
    [`import { one, run } from '../../../src/core/run.js';`, 'one in src/core/run.ts'],
  ])('a question to what waits is refused: %s', (text, name) => {
    const tree = planted({ 'test/reference/published/a.ts': text });
    expect(askedOfWaiting(tree, [{ name, issue: 3, reason: 'waits' }]).faults).toEqual([
      `test/reference/published/a.ts:1 asks ${name}, which nobody runs`,
    ]);
    expect(askedOfWaiting(tree, []).faults).toEqual([]);
  });
});
