import { describe, expect, test } from 'vitest';
import { ambientFaults } from './ambient.js';
import { escapeFaults } from './escapes.js';
import { longFileFaults } from './long-files.js';
import { memoFaults } from './memos.js';
import { expectClean, planted, projectTree } from './tree.js';

describe('ambient clock, chance and language', () => {
  test('are nowhere in the pure layers', () => {
    expectClean(ambientFaults(projectTree()), 60);
  });

  test.each([
    ['a new date', 'new Date()', 'Date'],
    ['the clock', 'Date.now()', 'Date'],
    ['the clock, as a function', 'Date()', 'Date'],
    ['the clock, passed on', 'call(Date)', 'Date'],
    ['the type', 'x as Date', 'Date'],
    ['Temporal', 'Temporal.Now.instant()', 'Temporal.Now'],
    ['chance', 'Math.random()', 'Math.random'],
    ['chance by name', `Math['random']()`, 'Math.random'],
    ['an identifier', 'crypto.randomUUID()', 'crypto'],
    ['a stopwatch', 'performance.now()', 'performance'],
    ['the way round', 'globalThis.Date', 'globalThis'],
    ['the environment', 'process.env', 'process'],
    ['an order that differs by machine', 'a.localeCompare(b)', 'localeCompare in the language of the machine'],
    ['a number as the machine writes it', 'n.toLocaleString()', 'toLocaleString in the language of the machine'],
    ['the zone of the machine', 'new Intl.DateTimeFormat()', 'Intl.DateTimeFormat in the language of the machine'],
  ])('%s is refused', (_, code, what) => {
    for (const layer of ['core', 'log', 'api', 'words', 'told', 'papers', 'exports', 'demo']) {
      const { faults } = ambientFaults(planted({ [`src/${layer}/a.ts`]: `export const a = () =>\n  ${code};` }));
      expect(faults).toEqual([`src/${layer}/a.ts:2 uses ${what}`]);
    }
  });

  test('names of our own and other layers are let through', () => {
    const tree = planted({
      'src/core/a.ts': `interface A { Date: string } // new Date()\nconst s = 'Date.now'; a.localeCompare(b, 'en');`,
      'src/core/a.test.ts': 'new Date();',
      'src/server/a.ts': 'new Date();',
    });
    expect(ambientFaults(tree)).toEqual({ read: 1, faults: [] });
  });
});

describe('ways round the compiler', () => {
  test('are nowhere in src', () => {
    expectClean(escapeFaults(projectTree()), 60);
  });

  test.each([
    ['any', 'let a: any;', 'says any'],
    ['any inside a type', 'let a: Map<string, any[]>;', 'says any'],
    ['a non-null', 'a!.b();', 'says ! of what may be missing'],
    ['ignore', '// @ts-ignore', 'has @ts-ignore'],
    ['expect-error', '/* @ts-expect-error: no */', 'has @ts-expect-error'],
    [
      'a silent lint switch',
      '// biome-ignore lint/suspicious/noArrayIndexKey: ok',
      'has a lint switch without a reason',
    ],
  ])('%s is refused', (_, code, why) => {
    expect(escapeFaults(planted({ 'src/web/a.ts': `\n${code}` })).faults).toEqual([`src/web/a.ts:2 ${why}`]);
  });

  test('the words in a sentence, and a lint switch with its reason, are let through', () => {
    const code = `// any! of @ts-check\nconst a = 'any';\n// biome-ignore lint/a/b: the list never changes its order\n`;
    expect(escapeFaults(planted({ 'src/web/a.ts': code })).faults).toEqual([]);
  });
});

describe('memos with a key of their own', () => {
  test('are nowhere in src but in core/derived.ts', () => {
    expectClean(memoFaults(projectTree()), 60);
  });

  test('are refused', () => {
    const tree = planted({
      'src/log/a.ts': '\nconst known = new WeakMap<Animal, Due>();',
      'src/core/derived.ts': 'new WeakMap()',
    });
    expect(memoFaults(tree).faults).toEqual(['src/log/a.ts:2 keeps a memo of its own']);
  });
});

describe('long files', () => {
  const long = `${'//\n'.repeat(401)}`;

  test('have a reason each', () => {
    expectClean(longFileFaults(projectTree()), 60);
  });

  test('are refused without one, or with a bare word for one', () => {
    expect(longFileFaults(planted({ 'src/core/a.ts': long })).faults).toHaveLength(1);
    const bare = planted({ 'src/core/a.ts': long, 'test/architecture/long-files.json': '{"src/core/a.ts":"long"}' });
    expect(longFileFaults(bare).faults).toHaveLength(1);
    expect(longFileFaults(planted({ 'src/core/a.ts': long.slice(3) })).faults).toEqual([]);
  });

  test('leave no entry behind when they become short', () => {
    const list = '{"src/core/a.ts":"one table that is read as a whole"}';
    expect(
      longFileFaults(planted({ 'src/core/a.ts': long, 'test/architecture/long-files.json': list })).faults,
    ).toEqual([]);
    expect(longFileFaults(planted({ 'src/core/a.ts': '', 'test/architecture/long-files.json': list })).faults).toEqual([
      'test/architecture/long-files.json:1 src/core/a.ts is not over 400 lines',
    ]);
  });
});
