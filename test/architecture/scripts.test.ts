import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { nodeFault, packagesFault } from '../../scripts/install.mjs';
import { run } from '../../scripts/run.mjs';
import { stepsFor } from '../../scripts/steps.mjs';
import { countTests } from '../../scripts/vitest-report.mjs';
import { filesOf, projectTree } from './tree.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roundhand-scripts-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('the Node that Roundhand runs on', () => {
  test.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('%s will do', (version) => {
    expect(nodeFault(version)).toBeNull();
  });
  test.each(['18.20.4', '20.18.3', '20.9.0', '4.0.0'])('%s is too old, in a sentence', (version) => {
    expect(nodeFault(version)).toMatch(new RegExp(`needs Node 20.19 or newer; this is Node ${version}`));
  });
});

describe('installed packages', () => {
  const lock = {
    packages: {
      '': {},
      'node_modules/a': { version: '1.0.0' },
      'node_modules/b': { version: '2.0.0', optional: true },
    },
  };
  const install = (packages: Record<string, unknown>, present = true) => {
    writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(lock));
    mkdirSync(join(folder, 'node_modules', ...(present ? ['a'] : [])), { recursive: true });
    writeFileSync(join(folder, 'node_modules', '.package-lock.json'), JSON.stringify({ packages }));
  };

  test('are fresh when they are what the lock file names, optional ones or not', () => {
    install({ 'node_modules/a': { version: '1.0.0' } });
    expect(packagesFault(folder)).toBeNull();
  });
  test('are not when there are none', () => {
    expect(packagesFault(folder)).toBe('no packages are installed yet');
  });
  test('are not when one is missing, another version, gone, or a stray', () => {
    install({});
    expect(packagesFault(folder)).toBe('node_modules/a is missing');
    install({ 'node_modules/a': { version: '0.9.0' } });
    expect(packagesFault(folder)).toBe('node_modules/a is 0.9.0, not 1.0.0');
    install({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/c': { version: '1.0.0' } });
    expect(packagesFault(folder)).toBe('node_modules/c is not in package-lock.json');
    rmSync(join(folder, 'node_modules', 'a'), { recursive: true });
    install({ 'node_modules/a': { version: '1.0.0' } }, false);
    expect(packagesFault(folder)).toBe('node_modules/a is gone');
  });
});

describe('counts of a test run', () => {
  const count = (testResults: unknown, exitCode: number) => {
    const path = join(folder, 'report.json');
    writeFileSync(path, JSON.stringify({ testResults }));
    return countTests(path, exitCode);
  };
  const file = (status: string, ...statuses: string[]) => ({
    status,
    assertionResults: statuses.map((one) => ({ status: one })),
  });

  test('add up over the files', () => {
    const files = [file('passed', 'passed', 'skipped'), file('failed', 'failed', 'passed', 'failed')];
    expect(count(files, 1)).toEqual({ passed: 2, failed: 2, skipped: 1, note: '' });
  });
  test('have a file that broke before its tests as one failed', () => {
    expect(count([file('failed'), file('passed', 'passed')], 1)).toMatchObject({ passed: 1, failed: 1 });
  });
  test('never pass a run that ended badly, found no files, ran no test or left no report', () => {
    expect(count([file('passed', 'passed')], 1)).toMatchObject({ passed: 1, failed: 1 });
    expect(count([], 1)).toMatchObject({ failed: 1, note: 'no test files were found' });
    expect(count([file('passed', 'skipped')], 0)).toMatchObject({ failed: 1, note: 'no test ran' });
    expect(countTests(join(folder, 'none.json'), 0)).toMatchObject({ failed: 1, note: 'no report was written' });
  });
});

describe('steps', () => {
  test('a command’s exit code comes back, a missing one is 127', async () => {
    expect(await run(process.execPath, ['-e', 'process.exit(3)'], { quiet: true })).toBe(3);
    expect(await run(join(folder, 'no-such-program'), [], { quiet: true })).toBe(127);
  });
  test('a command that does not end is stopped', async () => {
    expect(await run(process.execPath, ['-e', 'setInterval(() => {}, 1000)'], { quiet: true, minutes: 0.005 })).toBe(
      124,
    );
  });
  test('what reads a zone runs in two more, and the quick run leaves out the slow steps', () => {
    const names = (quick: boolean) => stepsFor({ quick, long: false }).map((step) => step.name);
    expect(names(true).filter((name) => /^(unit|zone)/.test(name))).toEqual([
      'unit',
      'zone America/St_Johns',
      'zone Pacific/Auckland',
    ]);
    expect(names(false).slice(0, names(true).length)).toEqual(names(true));
    expect(names(false).slice(names(true).length)).toEqual([
      'component',
      'build',
      'oracle',
      'solver',
      'program',
      'engines',
      'journey',
    ]);
  });
  test('every test file belongs to a step', () => {
    const projects =
      /^(src\/|test\/(reference|architecture|contract|device|import|oracle|solver|program|engines|journey)\/)/;
    const files = filesOf(projectTree(), /\.test\.tsx?$/).map(([path]) => path);
    expect(files.length).toBeGreaterThanOrEqual(10);
    expect(files.filter((path) => !projects.test(path))).toEqual([]);
  });
});
