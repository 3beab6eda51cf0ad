// The real server over the real store, which fails one reading when it is told to: `node serve-failing-once.mjs DATA_FOLDER`.
// A line `fail after SEQ` on stdin makes the next reading from that place on fail, once.
import { createApp } from '../../../dist/server/app.js';
import { openStore } from '../../../dist/store/sqlite/open.js';

const opened = await openStore(process.argv[2]);
if (!opened.ok) throw new Error(JSON.stringify(opened.why));
const store = opened.value;
let failFrom = Number.POSITIVE_INFINITY;
process.stdin.setEncoding('utf8').on('data', (text) => {
  failFrom = Number(/fail after (\d+)/.exec(text)?.[1]);
  process.stdout.write('will fail\n');
});
const read = async (ask = {}) => {
  if (ask.subject === undefined && ask.ids === undefined && (ask.after ?? 0) >= failFrom) {
    failFrom = Number.POSITIVE_INFINITY;
    throw new Error('the disk did not answer');
  }
  return store.read(ask);
};
const app = await createApp({ store: { ...store, read }, clock: () => new Date().toISOString(), version: 'test' });
process.stdout.write(`at ${await app.listen({ port: 0, host: '127.0.0.1' })}\n`);
process.on('SIGTERM', () =>
  app
    .close()
    .then(() => store.close())
    .then(() => process.exit(0)),
);
