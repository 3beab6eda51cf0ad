import { type Findings, filesOf, isTest, type Tree } from './tree.js';

const id = /\b[A-Z]{2,}(?:-[A-Z]{2,})*-R\d+\b/g;
const ruleFile = /^docs\/rules\/.*\.md$/;

export interface RuleFindings extends Findings {
  readonly rules: number;
  readonly cited: number;
}

/**
 * The numbered rules against the tests that verify them. A rule is one line of docs/rules, `- **DOSE-R3** A sentence.
 * Source: where it comes from.`; a test says `Verifies: DOSE-R3, DOSE-R4` in its name or a comment. Check values name
 * their rule as data (`"rule": "DOSE-R3"` in reference/), and the suite that runs them says it for them.
 */
export function ruleFaults(tree: Tree): RuleFindings {
  const faults: string[] = [];
  const rules = new Map<string, string>();
  const files = filesOf(tree, ruleFile);
  for (const [path, text] of files) {
    for (const [index, line] of text.split('\n').entries()) {
      const at = `${path}:${index + 1}`;
      const name = /^- \*\*([^*]+)\*\*/.exec(line)?.[1];
      if (name === undefined || !/-R\d/.test(name)) continue;
      if (name.replace(id, '') !== '') faults.push(`${at} ${name} is not a rule's number like DOSE-R3`);
      const twice = rules.get(name);
      if (twice !== undefined) faults.push(`${at} ${name} is already at ${twice}`);
      if (!/\bSources?: \S/.test(line)) faults.push(`${at} ${name} names no source`);
      rules.set(name, at);
    }
    for (const { name, at } of mentions(path, text)) {
      if (!definedSomewhere(files, name)) faults.push(`${at} ${name} is mentioned and defined nowhere`);
    }
  }
  const verified = new Set<string>();
  for (const { name, at } of citations(tree)) {
    verified.add(name);
    if (name === '') faults.push(`${at} Verifies: names no rule`);
    else if (!rules.has(name)) faults.push(`${at} verifies ${name}, which is no rule`);
  }
  for (const [name, at] of rules) if (!verified.has(name)) faults.push(`${at} ${name} is verified by no test`);
  return { read: files.length, rules: rules.size, cited: verified.size, faults: [...new Set(faults)] };
}

interface Mention {
  readonly name: string;
  readonly at: string;
}

function mentions(path: string, text: string): Mention[] {
  return text
    .split('\n')
    .flatMap((line, index) => [...line.matchAll(id)].map(([name]) => ({ name, at: `${path}:${index + 1}` })));
}

const definedSomewhere = (files: readonly [string, string][], name: string): boolean =>
  files.some(([, text]) => text.includes(`- **${name}**`));

function citations(tree: Tree): Mention[] {
  const tests = filesOf(tree, /^(src|test)\/.*\.tsx?$/).filter(([path]) => isTest(path) || path.startsWith('test/'));
  // The gates write such lines to test themselves.
  const said = tests
    .filter(([path]) => !path.startsWith('test/architecture/'))
    .flatMap(([path, text]) =>
      text.split('\n').flatMap((line, index) => {
        const at = `${path}:${index + 1}`;
        const rest = /Verifies:(.*)$/.exec(line)?.[1];
        // A suite over check values takes the rule from the data: `Verifies: ${group.rule}`.
        if (rest === undefined || rest.trimStart().startsWith('${')) return [];
        const names = [...rest.matchAll(id)].map(([name]) => ({ name, at }));
        return names.length > 0 ? names : [{ name: '', at }];
      }),
    );
  const values = filesOf(tree, /^reference\/(?!published\/).*\.json$/).flatMap(([path, text]) =>
    [...text.matchAll(/"rule":\s*"([^"]+)"/g)].map((match) => ({
      name: match[1] ?? '',
      at: `${path}:${text.slice(0, match.index).split('\n').length}`,
    })),
  );
  return [...said, ...values];
}
