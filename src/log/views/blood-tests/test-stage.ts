import type { TestRun } from '../../../core/animal/animal.js';

/** How far a test has come, in the one word that every screen and paper has for it: blood drawn is no running test. */
export type TestStage = TestRun['result'] | 'drawn';

/** A single reading has no start of its own. */
export const stageOfTest = ({ result, startedAt }: Pick<TestRun, 'result'> & Partial<TestRun>): TestStage =>
  result === 'running' && startedAt === null ? 'drawn' : result;
