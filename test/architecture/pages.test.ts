import { describe, expect, test } from 'vitest';
import { foreignWordFaults } from './foreign-words.js';
import { linkFaults } from './links.js';
import { ruleFaults } from './rules.js';
import { expectClean, planted, projectTree } from './tree.js';

describe('numbered rules', () => {
  test('have a source and a test each, and every test names a rule there is', () => {
    const findings = ruleFaults(projectTree());
    expectClean(findings, 1);
    expect(findings.rules).toBeGreaterThan(0);
    expect(findings.cited).toBeGreaterThan(0);
  });

  const page = '# Dose\n\n- **DOSE-R1** Round once. Source: our rule.\n';
  const verified = `test('rounds (Verifies: DOSE-R1)', () => {});`;
  const faultsOf = (files: Record<string, string>) => ruleFaults(planted(files)).faults;

  test.each([
    ['a rule without a test', page, '', 'docs/rules/dose.md:3 DOSE-R1 is verified by no test'],
    [
      'a test of no rule',
      page,
      `${verified}\n// Verifies: DOSE-R9`,
      'src/core/a.test.ts:2 verifies DOSE-R9, which is no rule',
    ],
    [
      'a test that names nothing',
      page,
      `${verified}\n// Verifies: rounding`,
      'src/core/a.test.ts:2 Verifies: names no rule',
    ],
    [
      'a rule without a source',
      page.replace('Source: our rule.', ''),
      verified,
      'docs/rules/dose.md:3 DOSE-R1 names no source',
    ],
    [
      'a number used twice',
      `${page}${page.slice(8)}`,
      verified,
      'docs/rules/dose.md:4 DOSE-R1 is already at docs/rules/dose.md:3',
    ],
    [
      'a number that is none',
      `${page}- **Dose-R2** Source: x.`,
      verified,
      "docs/rules/dose.md:4 Dose-R2 is not a rule's number like DOSE-R3",
    ],
    [
      'a mention of no rule',
      `${page}See DOSE-R7.`,
      verified,
      'docs/rules/dose.md:4 DOSE-R7 is mentioned and defined nowhere',
    ],
  ])('refuses %s', (_, rules, tests, fault) => {
    expect(faultsOf({ 'docs/rules/dose.md': rules, 'src/core/a.test.ts': tests })).toContain(fault);
  });

  test('a sentence in the source is no test; check values are', () => {
    expect(faultsOf({ 'docs/rules/dose.md': page, 'src/core/a.ts': '// Verifies: DOSE-R1' })).toHaveLength(1);
    expect(faultsOf({ 'docs/rules/dose.md': page, 'reference/dosing.json': '{ "rule": "DOSE-R1" }' })).toEqual([]);
    expect(faultsOf({ 'docs/rules/dose.md': page, 'src/core/a.test.ts': verified })).toEqual([]);
  });
});

describe('the pages of the project', () => {
  test('lead to files that are there', () => {
    expectClean(linkFaults(projectTree()), 3);
  });

  test('a link to nowhere is refused', () => {
    const text = '[a](b.md) [c](../src/) [d](#e) [f](https://example.org)\n[g](gone.md#h)';
    const tree = planted({ 'docs/a.md': text, 'docs/b.md': '', 'src/core/a.ts': '' });
    expect(linkFaults(tree).faults).toEqual(['docs/a.md:2 leads to gone.md, which is not there']);
  });
});

describe('paths and hosts of one machine', () => {
  test('are in no file', () => {
    expectClean(foreignWordFaults(projectTree()), 100);
  });

  // Put together here, so that this file passes its own gate.
  const path = (...parts: string[]) => ['', ...parts].join('/');
  test.each([
    ['a checkout', `read ${path('work', 'main', 'x.ts')}`],
    ['a scratch file', `const a = '${path('tmp', 'a.json')}';`],
    ['a home', path('home', 'someone', 'notes')],
    ['a home on Windows', ['C:', 'Users', 'someone'].join('\\')],
    ['a registry', `"resolved": "https://${['registry', 'npmjs', 'org'].join('.')}/zod"`],
    ['a registry inside a company', ['https://artifactory', 'example', 'com'].join('.')],
  ])('%s is refused', (_, line) => {
    const { faults } = foreignWordFaults(planted({ 'docs/a.md': `one\n${line}\n` }));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(/^docs\/a\.md:2 has /);
  });

  test('ordinary paths and addresses are let through', () => {
    const text = `GET /animals/1 ./work/ src/home/a.ts ${path('usr', 'bin', 'chromium')} https://www.cdc.gov/root/x`;
    expect(foreignWordFaults(planted({ 'a.md': text })).faults).toEqual([]);
  });
});
