import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from './build.mjs';
import { ensureInstalled, requireNode } from './install.mjs';
import { root } from './run.mjs';

requireNode();
if ((await ensureInstalled()) && (await build())) {
  // The program takes over this process, so that a signal to stop reaches it and not a parent that outlives it.
  const main = join(root, 'dist', 'cli', 'main.js');
  process.argv.splice(1, 1, main, 'start');
  await import(pathToFileURL(main).href);
} else {
  process.exitCode = 1;
}
