import { readFileSync } from 'node:fs';
import { ensureInstalled, requireNode } from './install.mjs';
import { tell } from './run.mjs';

/**
 * `npm test` runs everything, `--long` (`npm run test:long`) what is drawn by chance, anew and longer; `--quick` (`npm run check`) leaves out the build, the program and the journeys;
 * `--only lint,unit` runs the steps whose name begins so. The last line is always `N passed, N failed`.
 */
requireNode();
const options = process.argv.slice(2);
const quick = options.includes('--quick');
const long = options.includes('--long');
const only = options.includes('--only') ? (options[options.indexOf('--only') + 1] ?? '').split(',') : null;

const rows = [];
try {
  await runSteps();
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.stack : error}\n`);
  rows.push({
    name: 'the test run itself',
    seconds: 0,
    cpu: 0,
    passed: 0,
    failed: 1,
    skipped: 0,
    note: 'broke; see above',
  });
}
const total = (column) => rows.reduce((sum, row) => sum + row[column], 0);
tell(`\n${table()}\n`);
if (rows.every(({ cpu }) => cpu !== null)) tell(`${(total('cpu') / 60).toFixed(1)} CPU minutes\n`);
// An exit code set here, not process.exit: what is still being written must come out before the last line.
process.exitCode = total('failed') === 0 ? 0 : 1;
tell(`${total('passed')} passed, ${total('failed')} failed`);

async function runSteps() {
  if (!(await timed('install', async () => ({ passed: 0, failed: (await ensureInstalled()) ? 0 : 1, skipped: 0 }))))
    return;
  const { stepsFor } = await import('./steps.mjs');
  const steps = stepsFor({ quick, long }).filter(
    (step) => only === null || only.some((start) => step.name.startsWith(start)),
  );
  if (steps.length === 0) throw new Error(`No step begins with ${only?.join(' or ')}.`);
  for (const step of steps) await timed(step.name, step.go);
}

async function timed(name, go) {
  tell(`\n== ${name}`);
  const [start, used] = [performance.now(), cpuSeconds()];
  const counts = await go();
  const cpu = used === null ? null : cpuSeconds() - used;
  rows.push({ name, seconds: (performance.now() - start) / 1000, cpu, note: '', ...counts });
  return counts.failed === 0;
}

/**
 * Seconds of processor time, its own and those of every process that it started and that has ended, as Linux counts them
 * (proc(5): fields 14 to 17 of /proc/self/stat, in hundredths of a second); null elsewhere.
 */
function cpuSeconds() {
  if (process.platform !== 'linux') return null;
  const stat = readFileSync('/proc/self/stat', 'utf8');
  // The name of the program stands in brackets and may hold spaces.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0) / 100;
}

function table() {
  const lines = [['step', 'seconds', 'CPU s', 'passed', 'failed', 'skipped', '']];
  for (const { name, seconds, cpu, passed, failed, skipped, note } of rows) {
    lines.push([
      name,
      seconds.toFixed(1),
      cpu === null ? '?' : cpu.toFixed(0),
      String(passed),
      String(failed),
      String(skipped),
      failed > 0 ? `✗ ${note}` : note,
    ]);
  }
  const widths = lines[0].map((_, column) => Math.max(...lines.map((line) => line[column].length)));
  return lines
    .map((line) => line.map((cell, c) => (c === 0 ? cell.padEnd(widths[c]) : cell.padStart(c < 6 ? widths[c] : 0))))
    .map((line) => line.join('  ').trimEnd())
    .join('\n');
}
