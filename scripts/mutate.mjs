import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { instrument } from './mutate/instrument.mjs';
import { noReason, pageWith, placeOf, reasonsOf } from './mutate/page.mjs';
import { root, tell } from './run.mjs';

/**
 * `npm run mutate [-- --write] [-- --only walk.ts,done.ts] [-- --survivors] [-- --every 4]`: changes the code of
 * src/core/protocol in one place at a time and looks whether a test fails. A change that no test notices survives and is
 * listed; `--write` puts the list into docs/mutation.md and keeps the reasons given there. `--only` takes some files,
 * `--survivors` what that page lists, `--every` a sample. Ends with 1 when fewer than 85 % of a whole run are killed, or
 * when a survivor has no reason on the page.
 */
const folder = 'src/core/protocol';
/** Its two small tools that lie outside: an order of texts and the clock on the wall. */
const tools = ['src/core/in-order.ts', 'src/core/wall-time.ts'];
const goal = 0.85;
/** Forms of files and words for people: what they say is tested elsewhere, and no rule of the engine is in them. */
const leftOut = new Set(['document.ts', 'due.ts', 'calculate.ts', 'progress.ts']);
const options = process.argv.slice(2);
const only = options.includes('--only') ? options[options.indexOf('--only') + 1]?.split(',') : undefined;
/** Only every so many of the mutants: a sample for a short hour. */
const every = options.includes('--every') ? Number(options[options.indexOf('--every') + 1]) : 1;
const again = options.includes('--survivors');
const isWhole = only === undefined && every === 1 && !again;
const page = join(root, 'docs', 'mutation.md');
if (options.includes('--write') && !isWhole) {
  tell('Only a whole run is written: a part of the survivors is not the list.');
  process.exit(1);
}

const nameOf = (path) => path.slice(path.lastIndexOf('/') + 1);
const all = readdirSync(join(root, folder), { recursive: true })
  .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
  .concat(tools)
  .filter((path) => path.endsWith('.ts'))
  // By the names of the files, wherever they lie: the page tells a file by its name.
  .sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1));
const files = all.filter(
  (path) => !path.endsWith('.test.ts') && !leftOut.has(nameOf(path)) && (only?.includes(nameOf(path)) ?? true),
);
/** Quick ones first: most changes are noticed at once. */
const last = ['document.test.ts', 'document-problems.test.ts'];
const own = all.filter(
  (path) => path.endsWith('.test.ts') && !['json-schema.test.ts', 'properties.test.ts'].includes(nameOf(path)),
);
const suites = [
  ...own.filter((path) => !last.includes(nameOf(path))),
  'src/words/due.test.ts',
  'src/log/views/due/order.test.ts',
  'test/oracle/oracle.test.ts',
  ...own.filter((path) => last.includes(nameOf(path))),
];

const mutants = [];
/** In one order, so that the same code gives the same numbers and a run that was broken off finds its place. */
const instrumented = new Map(
  files.map((name) => {
    const path = join(root, name);
    return [path, instrument(name, readFileSync(path, 'utf8'), mutants)];
  }),
);
const outDir = join(root, '.cache', 'mutate');
mkdirSync(outDir, { recursive: true });
const entry = join(outDir, 'entry.mjs');
writeFileSync(
  entry,
  [
    `import { seen } from ${JSON.stringify(join(root, 'scripts/mutate/awake.mjs'))};`,
    ...suites.map((path) => `import ${JSON.stringify(join(root, path))};`),
    `import { runAll } from ${JSON.stringify(join(root, 'scripts/mutate/harness.mjs'))};`,
    'await runAll(seen);',
  ].join('\n'),
);
await build({
  root,
  configFile: false,
  logLevel: 'error',
  resolve: { alias: { vitest: join(root, 'scripts/mutate/harness.mjs') } },
  plugins: [
    {
      name: 'mutants',
      enforce: 'pre',
      transform(code, id) {
        const path = id.split('?')[0] ?? id;
        const text = (instrumented.get(path) ?? code).replaceAll(
          'import.meta.url',
          JSON.stringify(pathToFileURL(path).href),
        );
        return text === code ? null : { code: text, map: null };
      },
    },
  ],
  build: {
    ssr: entry,
    outDir,
    emptyOutDir: false,
    target: 'node20',
    minify: false,
    rollupOptions: { output: { entryFileNames: 'bundle.mjs' } },
  },
});

const bundle = join(outDir, 'bundle.mjs');
const run = (mutant, seconds) =>
  new Promise((resolve) => {
    const env = {
      ...process.env,
      ROUNDHAND_SEED: '20260315',
      ORACLE_RUNS: '1200',
      ...(mutant === 0 ? {} : { MUTANT: String(mutant) }),
    };
    const child = spawn(process.execPath, [bundle], { cwd: root, env, stdio: ['ignore', 'pipe', 'ignore'] });
    let out = '';
    child.stdout.on('data', (part) => {
      out += part;
    });
    const timer = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve({ killed: code !== 0, out });
    });
  });

const start = performance.now();
const base = await run(0, 600);
if (base.killed) {
  tell(`The tests fail without any change: ${base.out.slice(-600)}`);
  process.exit(1);
}
const reasons = reasonsOf(readFileSync(page, 'utf8'));
const tried = mutants.filter((one) => one.id % every === 0 && (!again || reasons.has(placeOf(one, mutants))));
const reached = new Set(JSON.parse(/seen (\[.*\])/.exec(base.out)?.[1] ?? '[]'));
const baseSeconds = (performance.now() - start) / 1000;
tell(
  `${mutants.length} mutants in ${files.length} files, ${reached.size} reached; one run takes ${baseSeconds.toFixed(1)} s.`,
);

const survivors = tried.filter(({ id }) => !reached.has(id)).map((one) => ({ ...one, reached: false }));
const queue = tried.filter(({ id }) => reached.has(id));
/** What was found for this very bundle before, so that a run that was broken off goes on where it was. */
const found = join(outDir, `${createHash('sha256').update(readFileSync(bundle)).digest('hex').slice(0, 16)}.txt`);
const known = new Map(
  (existsSync(found) ? readFileSync(found, 'utf8') : '')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => [Number(line.split(' ')[0]), line.endsWith('killed')]),
);
let killed = 0;
let done = 0;
async function worker() {
  for (let one = queue.shift(); one !== undefined; one = queue.shift()) {
    const before = known.get(one.id);
    const dead = before ?? (await run(one.id, Math.max(20, baseSeconds * 4))).killed;
    if (before === undefined) appendFileSync(found, `${one.id} ${dead ? 'killed' : 'lives'}\n`);
    done += 1;
    if (dead) killed += 1;
    else survivors.push({ ...one, reached: true });
    if (done % 25 === 0) tell(`${done} run, ${killed} killed`);
  }
}
await Promise.all(Array.from({ length: Math.max(1, Math.min(2, cpus().length)) }, worker));
survivors.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : a.line - b.line || a.id - b.id));
const share = killed / tried.length;
const lines = survivors.map((one) => `${one.line} ${placeOf(one, mutants)}${one.reached ? '' : ' (never reached)'}`);
const percent = (share * 100).toFixed(1);
tell(`${killed} of ${tried.length} killed: ${percent} %. Survivors, each after its line:\n${lines.join('\n')}`);
if (options.includes('--write')) {
  const said = `${killed} of ${tried.length} mutants killed (${percent} %).`;
  writeFileSync(page, pageWith(readFileSync(page, 'utf8'), said, survivors, mutants));
}
const bare = survivors.filter((one) => (reasons.get(placeOf(one, mutants)) ?? noReason) === noReason);
if (bare.length > 0) tell(`${bare.length} of them have no reason in docs/mutation.md.`);
process.exitCode = (isWhole && share < goal) || bare.length > 0 ? 1 : 0;
