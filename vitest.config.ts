import { defineConfig } from 'vitest/config';
import { longest_ms, patience_ms } from './test/support/patience.js';

/** Every wait is for a state; these only end what would wait for ever. They are said in one place. */
const patient = {
  testTimeout: longest_ms,
  hookTimeout: longest_ms,
  expect: { poll: { timeout: patience_ms, interval: 100 } },
  setupFiles: ['test/support/fixed-seed.ts'],
};

export default defineConfig({
  test: {
    projects: [
      // Files of one worker share their modules, as the parts of a running program do: loading them anew took most of the time.
      { test: { ...patient, name: 'unit', include: ['src/**/*.test.{ts,tsx}'], environment: 'node', isolate: false } },
      { test: { ...patient, name: 'oracle', include: ['test/oracle/**/*.test.ts'] } },
      { test: { ...patient, name: 'reference', include: ['test/reference/**/*.test.ts'], isolate: false } },
      { test: { ...patient, name: 'architecture', include: ['test/architecture/**/*.test.ts'] } },
      { test: { ...patient, name: 'contract', include: ['test/contract/**/*.test.ts'] } },
      // Child processes of a solver, killed after a minute each: too slow for the quick run.
      { test: { ...patient, name: 'solver', include: ['test/solver/**/*.test.ts'], fileParallelism: false } },
      { test: { ...patient, name: 'device', include: ['test/device/**/*.test.ts'] } },
      { test: { ...patient, name: 'import', include: ['test/import/**/*.test.ts'] } },
      // One built program, or one browser, at a time.
      { test: { ...patient, name: 'program', include: ['test/program/**/*.test.ts'], fileParallelism: false } },
      { test: { ...patient, name: 'engines', include: ['test/engines/**/*.test.ts'], fileParallelism: false } },
      { test: { ...patient, name: 'journey', include: ['test/journey/**/*.test.ts'], fileParallelism: false } },
    ],
  },
});
