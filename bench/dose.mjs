// How long the dose calculator takes for 100,000 lines, end to end from stdin to stdout: `node bench/dose.mjs`.
// Its answers are checked outside the timed part against the same doses worked out one by one.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { calculateDose, DoseInput } from '../dist/core/dosing/calculate.js';
import { FormularyDocument } from '../dist/core/dosing/formulary.js';

const lines = 100_000;
const main = fileURLToPath(new URL('../dist/cli/main.js', import.meta.url));
const document = fileURLToPath(new URL('../protocols/starter-formulary.json', import.meta.url));
const products = ['pyrantel-50', 'imidacloprid-100', 'selamectin-60', 'praziquantel-injection-56-8', 'ponazuril-100'];
let state = 20260312;
const roll = (below) => {
  state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
  return Math.floor((state / 4_294_967_296) * below);
};
const inputs = Array.from({ length: lines }, () => ({
  weight: `${300 + roll(4_700)} g`,
  product: products[roll(products.length)],
  age_days: 56 + roll(350),
}));

const folder = mkdtempSync(join(tmpdir(), 'roundhand-bench-'));
const from = join(folder, 'in.jsonl');
const to = join(folder, 'out.jsonl');
writeFileSync(from, `${inputs.map((one) => JSON.stringify(one)).join('\n')}\n`);

/** Seconds of the wall clock and of the processor; the shell's own `times` tells the second. */
function run() {
  const began = performance.now();
  const script = `"$1" "$2" dose --date 2026-03-12 < "$3" > "$4"; code=$?; times; exit $code`;
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

const runs = [];
for (let round = 0; round < 3; round++) runs.push(run());

const answers = readFileSync(to, 'utf8').trim().split('\n');
if (answers.length !== lines) throw new Error(`${answers.length} answers to ${lines} lines`);
const formulary = FormularyDocument.parse(JSON.parse(readFileSync(document, 'utf8')));
const context = { formulary, today: '2026-03-12', now: '2026-03-12T12:00:00Z' };
for (let at = 0; at < lines; at += 97) {
  const alone = calculateDose(DoseInput.parse(inputs[at]), context);
  const line = JSON.parse(answers[at]);
  if (!alone.ok || alone.value.mark !== line.mark || alone.value.ml !== line.ml) throw new Error(`line ${at} differs`);
}
rmSync(folder, { recursive: true });
const two = (seconds) => Number(seconds.toFixed(2));
const best = Math.min(...runs.map((one) => one.wall_s));
process.stdout.write(
  `${JSON.stringify({ lines, wall_s: runs.map((one) => two(one.wall_s)), cpu_s: runs.map((one) => two(one.cpu_s)), best_us_a_line: Number(((best / lines) * 1e6).toFixed(1)), node: process.version, cpu: cpus()[0]?.model, cores: cpus().length, load: loadavg().map((one) => Number(one.toFixed(1))) })}\n`,
);
