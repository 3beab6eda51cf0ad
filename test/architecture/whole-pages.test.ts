import { expect, test } from 'vitest';
import { expectClean, planted, projectTree } from './tree.js';
import { readmeFaults, ruleTableFaults } from './whole-pages.js';

test('the table of rules leads to every page of rules', () => {
  expectClean(ruleTableFaults(projectTree()), 10);
});

test('the README names every folder at the top, every layer and every chapter of the trade', () => {
  expectClean(readmeFaults(projectTree()), 20);
});

test('a page or a folder that is left out is told', () => {
  const tree = planted({
    'docs/rules.md': '| [DOSE](rules/dose.md) | doses |',
    'docs/rules/dose.md': '',
    'docs/rules/chip.md': '',
    'README.md': '`docs/`, `src/core/` with `chip`',
    'src/core/chip/a.ts': '',
    'src/core/dosing/a.ts': '',
    'src/log/a.ts': '',
    'bench/a.ts': '',
  });
  expect(ruleTableFaults(tree).faults).toEqual(['docs/rules.md does not lead to rules/chip.md']);
  expect(readmeFaults(tree).faults).toEqual([
    'README.md does not name dosing',
    'README.md does not name src/log/',
    'README.md does not name bench/',
  ]);
});
