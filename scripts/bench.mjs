import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import { root, tell } from './run.mjs';

/**
 * `npm run bench -- round [--write]` runs bench/round.ts: bundled as it would be shipped, in a process of its own. With
 * `--write` the tables go to docs/benchmarks.md, too. It ends with 1 when a goal is missed.
 */
const [name = '', ...options] = process.argv.slice(2);
const entry = join(root, 'bench', `${name}.ts`);
if (!/^[a-z-]+$/.test(name) || !existsSync(entry)) {
  const names = readdirSync(join(root, 'bench')).filter((file) => file.endsWith('.ts'));
  tell(`Which benchmark? ${names.map((file) => file.slice(0, -3)).join(', ')}`);
  process.exit(1);
}
const outDir = join(root, '.cache', 'bench');
mkdirSync(outDir, { recursive: true });
await build({
  root,
  configFile: false,
  logLevel: 'warn',
  build: { ssr: entry, outDir, emptyOutDir: false, target: 'node20', minify: false },
});
const file = [join(outDir, `${name}.mjs`), join(outDir, `${name}.js`)].find((one) => existsSync(one));
if (file === undefined) throw new Error(`the bundle of bench/${name}.ts is missing`);
const { status } = spawnSync(process.execPath, [file, ...options], { stdio: 'inherit', cwd: root });
process.exitCode = status ?? 1;
