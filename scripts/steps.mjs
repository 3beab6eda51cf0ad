import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from './build.mjs';
import { findChromium } from './chromium.mjs';
import { findEngines } from './engines.mjs';
import { root, run, runTool } from './run.mjs';
import { countTests } from './vitest-report.mjs';

/** Zones on both sides of UTC, one with a half hour, each with its own summer time: a day that moves shows here. */
const zones = ['UTC', 'America/St_Johns', 'Pacific/Auckland'];

/**
 * The steps of a test run, in order. Each gives { passed, failed, skipped, note }; a step that is no test suite counts
 * as one failed when it fails and as nothing when it passes.
 */
export function stepsFor({ quick }) {
  const suites = ['reference', 'architecture', 'contract', 'device', 'import'];
  return [
    { name: 'lint', go: () => check(() => runTool('@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.'])) },
    { name: 'types', go: () => check(() => runTool('typescript/bin/tsc', ['-b'])) },
    { name: 'openapi', go: openapi },
    ...zones.map((zone) => ({ name: `unit ${zone}`, go: () => vitest('unit', { env: { TZ: zone } }) })),
    ...suites.map((project) => ({ name: project, go: () => vitest(project) })),
    ...(quick
      ? []
      : [
          { name: 'build', go: () => check(async () => ((await build()) ? 0 : 1)) },
          { name: 'oracle', go: () => vitest('oracle') },
          { name: 'solver', go: () => vitest('solver') },
          { name: 'program', go: () => vitest('program') },
          { name: 'engines', go: engines },
          { name: 'journey', go: journey },
        ]),
  ];
}

const result = (failed, note = '') => ({ passed: 0, failed, skipped: 0, note });
const check = async (step) => result((await step()) === 0 ? 0 : 1);

async function vitest(project, { env = {} } = {}) {
  const folder = join(root, '.cache', 'reports');
  mkdirSync(folder, { recursive: true });
  const report = join(folder, `${project}${env.TZ === undefined ? '' : `-${env.TZ.replace('/', '-')}`}.json`);
  rmSync(report, { force: true });
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile.json=${report}`];
  const code = await runTool('vitest/vitest.mjs', ['run', '--project', project, ...reporters], { env });
  return countTests(report, code);
}

/** The published description of the wire must be the one the schemas give today. */
async function openapi() {
  if (!existsSync(join(root, 'openapi.json'))) return result(1, 'openapi.json is missing');
  return check(() => run(process.execPath, ['dist/cli/main.js', 'openapi', '--check']));
}

async function journey() {
  const chromium = await findChromium();
  if (chromium === null) return result(1, 'no browser');
  return vitest('journey', { env: { CHROME_PATH: chromium } });
}

async function engines() {
  const missing = await findEngines();
  return missing.length > 0 ? result(1, `not here: ${missing.join(', ')}`) : vitest('engines');
}
