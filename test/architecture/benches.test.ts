import { expect, test } from 'vitest';
import { expectClean, type Findings, filesOf, planted, projectTree, type Tree } from './tree.js';

/** Goals of a benchmark that name a unit of time: another machine, or a busy hour, would miss or meet them by itself. */
function timedGoals(tree: Tree): Findings {
  const goals = filesOf(tree, /^bench\/.*\.ts$/).flatMap(([path, text]) =>
    [...text.matchAll(/report\.goal\(\s*([`'])(.*?)\1/g)].map(([, , name = '']) => ({ path, name })),
  );
  const timed = goals.filter(({ name }) =>
    /(^|[ ,(])(ms|s|seconds|milliseconds|microseconds|minutes)\b(?! over)/.test(strip(name)),
  );
  return { read: goals.length, faults: timed.map(({ path, name }) => `${path} has a goal in time: ${name}`) };
}

/** What a search was told to take is its question, not its goal. */
const strip = (name: string): string => name.replace(/end after \d+ ms over final end/, '');

test('goals of benchmarks are ratios', () => {
  expectClean(timedGoals(projectTree()), 20);
});

test.each(['due list, ms, largest', '100,000 lines, processor seconds', 'microseconds an animal'])(
  'a goal in time is refused: %s',
  (name) => {
    expect(timedGoals(planted({ 'bench/a.ts': `report.goal('${name}', seen, 5);` })).faults).toHaveLength(1);
    expect(timedGoals(planted({ 'bench/a.ts': "report.goal('over the yardstick', seen, 5);" })).faults).toEqual([]);
  },
);
