import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled, requireNode } from './install.mjs';
import { packAhead } from './pack-ahead.mjs';
import { root, runTool, tell } from './run.mjs';

const layers = ['core', 'words', 'log', 'demo', 'api', 'exports', 'store', 'server', 'cli'];
const config = 'src/web/vite.config.ts';

/** The two things that are built, each from its own sources. */
const program = {
  name: 'program',
  sources: ['tsconfig.base.json', 'package-lock.json', ...layers.map((layer) => `src/${layer}`)],
  result: 'dist/cli/main.js',
  build: buildProgram,
};
const web = {
  name: 'web app',
  sources: [
    'tsconfig.base.json',
    'package-lock.json',
    'scripts/pack-ahead.mjs',
    ...['core', 'words', 'log', 'told', 'papers', 'api', 'exports', 'device', 'server', 'store', 'web'].map(
      (l) => `src/${l}`,
    ),
  ],
  result: 'dist/web/index.html',
  build: buildWeb,
};

/** Build what is not fresh. True when everything asked for is built; says what it does and what went wrong. */
export async function build({ only, force = false } = {}) {
  for (const part of [program, web]) {
    if (only !== undefined && only !== part.name) continue;
    if (part === web && !existsSync(join(root, config))) {
      tell('There is no web app in this tree yet; only the program is built.');
      continue;
    }
    const mark = join(root, '.cache', 'built', `${part.name.replace(' ', '-')}.sha256`);
    const now = fingerprint(part.sources);
    if (!force && existsSync(mark) && existsSync(join(root, part.result)) && readFileSync(mark, 'utf8') === now)
      continue;
    tell(`Building the ${part.name} ...`);
    const code = await part.build();
    if (code !== 0 || !existsSync(join(root, part.result))) {
      tell(
        `The ${part.name} could not be built${code === 0 ? `: ${part.result} is missing` : '; the lines above say why'}.`,
      );
      return false;
    }
    mkdirSync(dirname(mark), { recursive: true });
    writeFileSync(mark, now);
  }
  return true;
}

async function buildWeb() {
  const code = await runTool('vite/bin/vite.js', ['build', '--config', config, '--logLevel', 'warn']);
  if (code === 0) await packAhead(join(root, 'dist', 'web'));
  return code;
}

async function buildProgram() {
  const code = await runTool('typescript/bin/tsc', ['-b', 'src/cli']);
  for (const layer of layers) dropOrphans(join(root, 'dist', layer), join(root, 'src', layer));
  return code;
}

// The compiler never removes the output of a source that was renamed or deleted, and a stale module still loads.
function dropOrphans(built, source) {
  if (!existsSync(built)) return;
  for (const file of filesUnder(built)) {
    const stem = relative(built, file).replace(/\.(js|d\.ts)(\.map)?$/, '');
    if (stem !== relative(built, file) && !existsSync(join(source, `${stem}.ts`))) rmSync(file);
  }
}

function fingerprint(sources) {
  const hash = createHash('sha256').update(process.versions.modules);
  for (const source of sources) {
    const path = join(root, source);
    if (!existsSync(path)) continue;
    for (const file of statSync(path).isDirectory() ? filesUnder(path) : [path]) {
      if (/\.test\.tsx?$/.test(file)) continue;
      hash.update(`\0${relative(root, file)}\0`).update(readFileSync(file));
    }
  }
  return hash.digest('hex');
}

const filesUnder = (folder) =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  requireNode();
  const done = (await ensureInstalled()) && (await build({ force: process.argv.includes('--force') }));
  if (done) tell('Built.');
  process.exitCode = done ? 0 : 1;
}
