import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', include: ['src/**/*.test.{ts,tsx}'], environment: 'node' } },
      { test: { name: 'oracle', include: ['test/oracle/**/*.test.ts'], testTimeout: 180_000 } },
      { test: { name: 'reference', include: ['test/reference/**/*.test.ts'] } },
      { test: { name: 'architecture', include: ['test/architecture/**/*.test.ts'], testTimeout: 120_000 } },
      { test: { name: 'contract', include: ['test/contract/**/*.test.ts'], testTimeout: 60_000 } },
      // Child processes of a solver, killed after a minute each: too slow for the quick run.
      { test: { name: 'solver', include: ['test/solver/**/*.test.ts'], fileParallelism: false } },
      { test: { name: 'import', include: ['test/import/**/*.test.ts'], testTimeout: 60_000 } },
      {
        test: {
          name: 'program',
          include: ['test/program/**/*.test.ts'],
          testTimeout: 300_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        test: {
          name: 'journey',
          include: ['test/journey/**/*.test.ts'],
          testTimeout: 300_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
