// The built server with nothing in it and no demo on offer: `node serve-own.mjs DATA PORT START`. The code for the first
// administrator, which a start prints, is written into the data folder. A message is the number of milliseconds by which the
// clock is ahead of START.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startServer } from '../../dist/server/start.js';

const [data, port, start] = process.argv.slice(2);
let ahead = 0;
process.on('message', (milliseconds) => {
  ahead = milliseconds;
});

const started = await startServer({
  data,
  port: Number(port),
  webRoot: fileURLToPath(new URL('../../dist/web', import.meta.url)),
  clock: () => new Date(Date.parse(start) + ahead).toISOString(),
  logLevel: 'silent',
  printCode: (code) => writeFileSync(join(data, 'first-code.txt'), code),
});
if (!started.ok) throw new Error(JSON.stringify(started.why));
process.send(started.value.url);
process.on('SIGTERM', () => {
  started.value.close().then(() => process.exit(0));
});
