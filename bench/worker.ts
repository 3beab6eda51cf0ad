import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, resolve } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { build } from 'vite';
import { findChromium } from '../scripts/chromium.mjs';
import { stepName } from '../src/core/route-plan/model/instance.js';
import type { Round, RoundPlan } from '../src/core/route-plan/whole-round/round-shape.js';
import { workOut } from '../src/web/plan/work.js';
import { checkPlan } from '../test/support/plan-checker.js';
import { environment, figure, largest, median, reportFor } from './report.js';
import { fetching } from './round/settings.js';
import { shelter } from './round/shelter.js';
import type {} from './worker/page.js';
import type { Planned, Times } from './worker/planned.js';
import { yardstickBy } from './yardstick.js';

/** How long does a plan take in the browser's worker, and does the page still answer meanwhile? */
const asked = process.argv.indexOf('--turns');
const turns = asked < 0 ? 5 : Number(process.argv[asked + 1]);
const job = { round: { ...shelter(6, 10, 50, fetching), teams: 4 }, rho: 2, budget_ms: 2_000 };
const outDir = resolve('.cache/bench/page');
const types: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };

function inNode(): Times {
  const began = performance.now();
  const times: Partial<Record<'first_ms' | 'best_ms' | 'advice_ms', number>> & { plan?: RoundPlan } = {};
  workOut(
    { job: 1, ...job },
    () => performance.now(),
    (told) => {
      const at = performance.now() - began;
      if (told.is === 'failed') throw new Error(told.message);
      if (told.is === 'advice') times.advice_ms = at;
      else if (told.best && told.plan !== null) Object.assign(times, { best_ms: at, plan: told.plan });
      else times.first_ms = at;
    },
  );
  return times as Times;
}

/** A new page each time, so that no worker finds its code warm. */
async function inBrowser(browser: Browser, url: string): Promise<Planned> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(url);
  await page.waitForFunction(() => typeof window.planOnce === 'function');
  const planned = await page.evaluate((asked) => window.planOnce(asked), job);
  await page.close();
  return planned;
}

/** Every rule of every visit by the checker of the tests, and nobody left out or handled twice. */
function faultsIn(round: Round, plan: RoundPlan): string[] {
  const met = plan.teams.flatMap((team) => team.visits.flatMap((visit) => visit.litters));
  const all = round.sections.flatMap((stop) => stop.section.litters.map((litter) => litter.id));
  const faults = [...met].sort().join() === [...all].sort().join() ? [] : ['not every litter has one team'];
  for (const visit of plan.teams.flatMap((team) => team.visits)) {
    const whole = round.sections.find((one) => one.section.id === visit.section)?.section;
    if (whole === undefined) return [...faults, 'no such section'];
    const litters = whole.litters.filter((litter) => visit.litters.includes(litter.id));
    faults.push(
      ...checkPlan(
        { ...whole, litters },
        visit.plan.steps.map((s) => ({ ...s, op: stepName(s) })),
      ).faults,
    );
  }
  return faults;
}

const executablePath = await findChromium();
if (executablePath === null) process.exit(1);
await build({
  root: resolve('bench/worker'),
  configFile: false,
  logLevel: 'warn',
  worker: { format: 'es' },
  build: { outDir, emptyOutDir: true, target: 'es2023' },
});
const server = createServer((request, response) => {
  const path = new URL(request.url ?? '/', 'http://localhost').pathname;
  const file = join(outDir, path === '/' ? 'index.html' : path);
  try {
    const body = readFileSync(file);
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' }).end(body);
  } catch {
    response.writeHead(404).end();
  }
});
await new Promise<void>((ready) => {
  server.listen(0, '127.0.0.1', ready);
});
const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });

const report = reportFor('worker', process.argv.includes('--write'));
report.line(
  `${environment()} Here both sides are measured by the clock. Chromium ${browser.version()}, without a screen.`,
);
const yardstick = yardstickBy(() => performance.now());
const node: Times[] = [];
const web: Planned[] = [];
for (let turn = 0; turn < turns; turn += 1) {
  node.push(inNode());
  web.push(await inBrowser(browser, url));
  yardstick.again();
}
await browser.close();
server.close();

for (const [where, { plan }] of [
  ...node.map((one) => ['node', one] as const),
  ...web.map((one) => ['web', one] as const),
]) {
  const faults = faultsIn(job.round, plan);
  if (faults.length > 0) throw new Error(`${where}: ${faults.slice(0, 3).join('; ')}`);
}
const animals = job.round.sections.flatMap((stop) => stop.section.litters.flatMap((litter) => litter.animals));
report.heading('### Planning in the worker of the browser');
report.line(
  `${animals.length} animals with ${animals.filter((one) => one.tested).length} tests in ${job.round.sections.length} sections for ${job.round.teams} teams whose holders fetch, search told to end after ${figure(job.budget_ms / 1000)} s, ${turns} times each in turn; milliseconds from the question to the answer, median (largest). The first plan is the same work on both sides; the best one is bound by its time limit. In the browser each time is that of a new page and a new worker.`,
);
const row = (name: string, of: (one: Times) => number) => {
  const [a, b] = [node.map(of), web.map(of)];
  const told = (all: number[]): string => `${figure(median(all), 0)} (${figure(largest(all), 0)})`;
  return [name, told(a), told(b), figure(median(b) / median(a), 2)];
};
report.table(
  ['answer', 'node', 'browser worker', 'browser / node'],
  [
    row('a sound plan', (one) => one.first_ms),
    row('the best plan', (one) => one.best_ms),
    row('what other choices would change', (one) => one.advice_ms),
    row('end of the best plan, min', (one) => one.plan.end / 2),
  ],
);
const page = (of: (one: Planned) => number): string =>
  `${figure(median(web.map(of)), 0)} (${figure(largest(web.map(of)), 0)})`;
report.line(
  `The page meanwhile, ms, median (largest): longest time without an answer to itself ${page((one) => one.longest_ms)}, longest task the browser reports ${page((one) => one.task_ms)}, until the ribbon of all ${animals.length} animals stands ${page((one) => one.drawn_ms)}.`,
);
report.line(
  'That a page answers within 200 ms is what counts as good for the public measure Interaction to Next Paint (web.dev, Core Web Vitals).',
);
const inPage = median(web.map((one) => one.yardstick_ms));
report.line(`${yardstick.told()} In the page it took ${figure(inPage, 2)} ms before the question.`);
// How long a search is told to take is no speed; how far it goes beyond is.
const beyond = (of: Times): number => Math.max(0, of.best_ms - job.budget_ms);
report.goal(
  'a sound plan in node, median over the yardstick',
  median(node.map((one) => one.first_ms)) / yardstick.ms(),
  80,
);
report.goal(
  'a sound plan in the worker, median over the page’s yardstick',
  median(web.map((one) => one.first_ms)) / inPage,
  150,
);
report.goal(
  'the best plan in node: beyond its time, worst over the yardstick',
  largest(node.map(beyond)) / yardstick.ms(),
  100,
);
report.goal(
  'the best plan in the worker: beyond its time, worst over the page’s yardstick',
  largest(web.map(beyond)) / inPage,
  200,
);
report.goal(
  'longest pause of the page while the worker plans, median over its yardstick',
  median(web.map((one) => one.longest_ms)) / inPage,
  50,
);
process.exitCode = report.end() ? 0 : 1;
