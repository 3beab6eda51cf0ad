import {
  ASYMMETRIC_MATCHERS_OBJECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';
import * as chai from 'chai';

/**
 * The part of the test library that these tests use, in a few lines: a fresh process per mutant must start in a blink.
 * The matchers are the library's own.
 */
chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
export const expect = (value, message) => chai.expect(value, message);
Object.assign(expect, chai.expect);
Object.assign(expect, globalThis[ASYMMETRIC_MATCHERS_OBJECT]);
setState({ assertionCalls: 0, isExpectingAssertions: false, testPath: '' }, expect);

export const tests = [];
export const it = (name, body) => tests.push({ name, body });
const each = (table) => (name, body) => {
  for (const row of table) tests.push({ name, body: () => (Array.isArray(row) ? body(...row) : body(row)) });
};
it.each = each;
export const test = it;
export const describe = (_name, body) => body();
describe.each = (table) => (_name, body) => {
  for (const row of table) body(...(Array.isArray(row) ? row : [row]));
};

/** Run every test in order and end at the first that fails, with 1. `seen` is told when all pass and nothing was changed. */
export async function runAll(seen) {
  for (const { name, body } of tests) {
    try {
      await body();
    } catch (error) {
      process.stdout.write(`${name}: ${String(error?.message).slice(0, 300)}\n`);
      process.exit(1);
    }
  }
  if (process.env.MUTANT === undefined) process.stdout.write(`seen ${JSON.stringify([...seen])}\n`);
  process.exit(0);
}
