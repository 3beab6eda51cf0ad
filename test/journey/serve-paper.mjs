// The built server with the ward of the paper day on offer: `node serve-paper.mjs DATA PORT START`.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { FormularyDocument } from '../../dist/core/dosing/formulary.js';
import { ProtocolDocument } from '../../dist/core/protocol/document/document.js';
import { startServer } from '../../dist/server/start.js';
import { paperWard } from './paper-ward.mjs';

const [data, port, start] = process.argv.slice(2);
const document = (name) => JSON.parse(readFileSync(new URL(`../../protocols/${name}.json`, import.meta.url), 'utf8'));
const protocol = ProtocolDocument.parse(document('starter-protocol'));
const formulary = FormularyDocument.parse(document('starter-formulary'));
let ahead = 0;
process.on('message', (milliseconds) => {
  ahead = milliseconds;
});

const started = await startServer({
  data,
  port: Number(port),
  webRoot: fileURLToPath(new URL('../../dist/web', import.meta.url)),
  demo: () => paperWard({ protocol, formulary }),
  clock: () => new Date(Date.parse(start) + ahead).toISOString(),
  logLevel: 'silent',
});
if (!started.ok) throw new Error(JSON.stringify(started.why));
process.send(started.value.url);
process.on('SIGTERM', () => {
  started.value.close().then(() => process.exit(0));
});
