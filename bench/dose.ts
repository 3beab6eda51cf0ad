import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { CalendarDate } from '../src/core/calendar.js';
import { calculateDose, DoseInput, type DoseOutput } from '../src/core/dosing/calculate.js';
import { FormularyDocument } from '../src/core/dosing/formulary.js';
import { cpuNow, environment, reportFor } from './report.js';
import { yardstickBy } from './yardstick.js';

/** How long the dose calculator takes for 100,000 lines, from its first byte in to its last byte out; `--lines N` for a shorter run. */
const asked = process.argv.indexOf('--lines');
const lines = asked < 0 ? 100_000 : Number(process.argv[asked + 1]);
const runs = 3;
/** Processor time of 1,000 lines, the start of the program with it, over the yardstick. */
const goal = 12.5;
const main = resolve('dist/cli/main.js');
const products = ['pyrantel-50', 'imidacloprid-100', 'selamectin-60', 'praziquantel-injection-56-8', 'ponazuril-100'];

if (!existsSync(main)) throw new Error('The command line is not built: npm run build');
const report = reportFor('dose', process.argv.includes('--write'));
const folder = mkdtempSync(join(tmpdir(), 'roundhand-bench-'));
const from = join(folder, 'in.jsonl');
const to = join(folder, 'out.jsonl');
const inputs = questions();
writeFileSync(from, `${inputs.map((one) => JSON.stringify(one)).join('\n')}\n`);

const yardstick = yardstickBy(cpuNow);
const taken = Array.from({ length: runs }, () => {
  const one = run();
  yardstick.again();
  return one;
});
check();
rmSync(folder, { recursive: true });

report.line(environment());
report.heading('### From a line in to a line out');
report.line(
  `${lines.toLocaleString('en')} invented questions about ${products.length} products with all syringes of the starter formulary; the program is started anew for each run, held to one core, and reads and writes files. What else the machine does can only make a run longer, so the least one counts.`,
);
report.table(
  ['run', 'seconds', 'processor seconds, all threads', 'microseconds a line'],
  taken.map(({ wall_s, cpu_s }, at) => [
    at + 1,
    wall_s.toFixed(2),
    cpu_s.toFixed(2),
    ((wall_s / lines) * 1e6).toFixed(1),
  ]),
);
report.line(yardstick.told());
const least_ms = Math.min(...taken.map((one) => one.cpu_s)) * 1000;
report.goal('1,000 lines over the yardstick, least of the runs', least_ms / (lines / 1000) / yardstick.ms(), goal);
process.exitCode = report.end() ? 0 : 1;

function questions() {
  let state = 20260312;
  const roll = (below: number): number => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return Math.floor((state / 4_294_967_296) * below);
  };
  return Array.from({ length: lines }, () => ({
    weight: `${300 + roll(4_700)} g`,
    product: products[roll(products.length)] ?? '',
    age_days: 56 + roll(350),
  }));
}

/** Seconds of the wall clock and of the processor; the shell's own `times` tells the second. */
function run() {
  // One core for all of its threads where the system can hold it there.
  const script = `hold=""; command -v taskset >/dev/null && hold="taskset -c 0"
    $hold "$1" "$2" dose --date 2026-03-12 < "$3" > "$4"; code=$?; times; exit $code`;
  const began = performance.now();
  const { status, stdout } = spawnSync('bash', ['-c', script, 'bash', process.execPath, main, from, to], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`the calculator ended with ${status}`);
  const wall_s = (performance.now() - began) / 1000;
  const spent = [...(stdout.trim().split('\n')[1] ?? '').matchAll(/(\d+)m([\d.]+)s/g)];
  return {
    wall_s,
    cpu_s: spent.reduce((sum, [, minutes, seconds]) => sum + Number(minutes) * 60 + Number(seconds), 0),
  };
}

/** Outside the timed part: every 97th answer is that of the same question asked alone. */
function check(): void {
  const answers = readFileSync(to, 'utf8').trim().split('\n');
  if (answers.length !== lines) throw new Error(`${answers.length} answers to ${lines} lines`);
  const formulary = FormularyDocument.parse(JSON.parse(readFileSync('protocols/starter-formulary.json', 'utf8')));
  const context = { formulary, today: CalendarDate.parse('2026-03-12'), now: '2026-03-12T12:00:00Z' };
  for (let at = 0; at < lines; at += 97) {
    const alone = calculateDose(DoseInput.parse(inputs[at]), context);
    const line = JSON.parse(answers[at] ?? '') as DoseOutput;
    if (!alone.ok || alone.value.mark !== line.mark || alone.value.ml !== line.ml)
      throw new Error(`line ${at} differs`);
  }
}
