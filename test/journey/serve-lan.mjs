// The built server with https on the network and the invented shelter on offer, by the real clock, because whoever checks a
// certificate goes by that: `node serve-lan.mjs DATA PORT`. It is called cats.test; ROUNDHAND_PLAIN=1: without https.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { FormularyDocument } from '../../dist/core/dosing/formulary.js';
import { ProtocolDocument } from '../../dist/core/protocol/document/document.js';
import { makeDemo } from '../../dist/demo/make-demo.js';
import { startServer } from '../../dist/server/start.js';

const [data, port] = process.argv.slice(2);
const document = (name) => JSON.parse(readFileSync(new URL(`../../protocols/${name}.json`, import.meta.url), 'utf8'));
const protocol = ProtocolDocument.parse(document('starter-protocol'));
const formulary = FormularyDocument.parse(document('starter-formulary'));
process.on('message', () => undefined);

const started = await startServer({
  data,
  port: Number(port),
  ...(process.env.ROUNDHAND_PLAIN === '1' ? {} : { lan: { name: 'cats.test', given: null } }),
  webRoot: fileURLToPath(new URL('../../dist/web', import.meta.url)),
  // The machine's zone, as the program itself takes it: by the real clock another one is on another day for some hours.
  demo: (at) => makeDemo({ ...at, zone: Intl.DateTimeFormat().resolvedOptions().timeZone, protocol, formulary }),
  logLevel: 'silent',
});
if (!started.ok) throw new Error(JSON.stringify(started.why));
process.send(started.value.url);
process.on('SIGTERM', () => {
  started.value.close().then(() => process.exit(0));
});
