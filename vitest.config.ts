import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';
import { longest_ms, patience_ms } from './test/support/patience.js';

/** Every wait is for a state; these only end what would wait for ever. They are said in one place. */
const patient = {
  testTimeout: longest_ms,
  hookTimeout: longest_ms,
  expect: { poll: { timeout: patience_ms, interval: 100 } },
};

/** What the build puts in the place of this name keeps the pages in the browser; here there is nothing to keep. */
const noWorker = {
  name: 'no-worker',
  resolveId: (id: string) => (id === 'virtual:pwa-register' ? `\0${id}` : null),
  load: (id: string) => (id === '\0virtual:pwa-register' ? 'export const registerSW = () => async () => {};' : null),
};

const drawn = { ...patient, setupFiles: ['test/support/fixed-seed.ts'] };

export default defineConfig({
  test: {
    projects: [
      // Files of one worker share their modules, as the parts of a running program do: loading them anew took most of the time.
      {
        test: {
          ...drawn,
          name: 'unit',
          include: ['src/**/*.test.{ts,tsx}'],
          exclude: ['src/**/*.hand.test.tsx'],
          environment: 'node',
          isolate: false,
        },
      },
      // What a hand touches, each part by itself in the real browser at the size of a phone.
      {
        plugins: [react(), noWorker],
        define: { __ROUNDHAND_VERSION__: JSON.stringify('under test') },
        test: {
          ...patient,
          name: 'component',
          include: ['src/web/**/*.hand.test.tsx'],
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              // A press that never can be made fails as every other wait does.
              actionTimeout: patience_ms,
              launchOptions: { executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium', args: ['--no-sandbox'] },
              contextOptions: { hasTouch: true },
            }),
            instances: [{ browser: 'chromium', viewport: { width: 390, height: 844 } }],
          },
        },
      },
      { test: { ...drawn, name: 'oracle', include: ['test/oracle/**/*.test.ts'] } },
      { test: { ...drawn, name: 'reference', include: ['test/reference/**/*.test.ts'], isolate: false } },
      { test: { ...drawn, name: 'architecture', include: ['test/architecture/**/*.test.ts'] } },
      { test: { ...drawn, name: 'contract', include: ['test/contract/**/*.test.ts'] } },
      // Child processes of a solver, killed after a minute each: too slow for the quick run.
      { test: { ...drawn, name: 'solver', include: ['test/solver/**/*.test.ts'], fileParallelism: false } },
      { test: { ...drawn, name: 'device', include: ['test/device/**/*.test.ts'] } },
      { test: { ...drawn, name: 'import', include: ['test/import/**/*.test.ts'] } },
      // Built programs and browsers, each file with its own folder, port and clock: two at a time, as each waits most of its time.
      { test: { ...drawn, name: 'program', include: ['test/program/**/*.test.ts'], maxWorkers: 2 } },
      { test: { ...drawn, name: 'engines', include: ['test/engines/**/*.test.ts'], fileParallelism: false } },
      { test: { ...drawn, name: 'journey', include: ['test/journey/**/*.test.ts'], maxWorkers: 2 } },
    ],
  },
});
