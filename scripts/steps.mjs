import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from './build.mjs';
import { findChromium } from './chromium.mjs';
import { findEngines } from './engines.mjs';
import { root, run, runTool, tell } from './run.mjs';
import { countTests } from './vitest-report.mjs';

/** Zones on both sides of UTC, one with a half hour, each with its own summer time: a day that moves shows here. */
const zones = ['America/St_Johns', 'Pacific/Auckland'];

/** What a test that a zone could move has in its text: days and times are told by these, and by nothing else. */
const readsZone = /zone|Temporal|new Date\(|Intl\./i;

/**
 * The steps of a test run, in order. Each gives { passed, failed, skipped, note }; a step that is no test suite counts
 * as one failed when it fails and as nothing when it passes.
 */
export function stepsFor({ quick, long }) {
  if (long) return longSteps();
  const suites = ['reference', 'architecture', 'contract', 'device', 'import'];
  return [
    { name: 'lint', go: () => check(() => runTool('@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.'])) },
    { name: 'types', go: () => check(() => runTool('typescript/bin/tsc', ['-b'])) },
    { name: 'openapi', go: openapi },
    { name: 'unit', go: () => vitest('unit', { env: { TZ: 'UTC' } }) },
    ...zones.map((zone) => ({
      name: `zone ${zone}`,
      go: () => vitest('unit', { env: { TZ: zone }, files: filesWith('src', readsZone) }),
    })),
    ...suites.map((project) => ({ name: project, go: () => vitest(project) })),
    ...(quick
      ? []
      : [
          { name: 'component', go: () => inBrowser('component') },
          { name: 'build', go: () => check(async () => ((await build()) ? 0 : 1)) },
          { name: 'oracle', go: () => vitest('oracle') },
          { name: 'solver', go: () => vitest('solver') },
          { name: 'program', go: () => vitest('program') },
          { name: 'engines', go: engines },
          { name: 'journey', go: () => inBrowser('journey') },
        ]),
  ];
}

/** What is drawn anew each time, and more of it: before an issue is called done, and every night where there are nights. */
function longSteps() {
  const drawn = process.env.ROUNDHAND_SEED ?? String(1 + Math.floor(Math.random() * 2 ** 30));
  tell(`Drawn from ROUNDHAND_SEED=${drawn}.`);
  const env = { ROUNDHAND_LONG: '1', ROUNDHAND_SEED: drawn };
  const drawing = (project, files) => ({ name: `long ${project}`, go: () => vitest(project, { env, files }) });
  return [
    drawing('unit', filesWith('src', /fast-check/)),
    drawing('oracle'),
    drawing('reference', ['test/reference/random-doses.test.ts']),
    drawing('contract', filesWith('test/contract', /fast-check/)),
    drawing('device', filesWith('test/device', /chance\.js/)),
    { name: 'build', go: () => check(async () => ((await build()) ? 0 : 1)) },
    drawing('program', ['test/program/kill.test.ts']),
  ];
}

/** Tests under a folder with something in their text. */
function filesWith(folder, text) {
  return readdirSync(join(root, folder), { recursive: true })
    .filter((name) => /\.test\.tsx?$/.test(name))
    .map((name) => join(folder, name))
    .filter((name) => text.test(readFileSync(join(root, name), 'utf8')));
}

const result = (failed, note = '') => ({ passed: 0, failed, skipped: 0, note });
const check = async (step) => result((await step()) === 0 ? 0 : 1);

async function vitest(project, { env = {}, files = [] } = {}) {
  const folder = join(root, '.cache', 'reports');
  mkdirSync(folder, { recursive: true });
  const report = join(folder, `${project}${env.TZ === undefined ? '' : `-${env.TZ.replace('/', '-')}`}.json`);
  rmSync(report, { force: true });
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile.json=${report}`];
  const code = await runTool('vitest/vitest.mjs', ['run', '--project', project, ...reporters, ...files], { env });
  return countTests(report, code);
}

/** The published description of the wire must be the one the schemas give today. */
async function openapi() {
  if (!existsSync(join(root, 'openapi.json'))) return result(1, 'openapi.json is missing');
  return check(() => run(process.execPath, ['dist/cli/main.js', 'openapi', '--check']));
}

async function inBrowser(project) {
  const chromium = await findChromium();
  if (chromium === null) return result(1, 'no browser');
  return vitest(project, { env: { CHROME_PATH: chromium } });
}

async function engines() {
  const missing = await findEngines();
  return missing.length > 0 ? result(1, `not here: ${missing.join(', ')}`) : vitest('engines');
}
