// The real server as a program of its own: `node serve.mjs DATA_FOLDER PORT`.
import { serve } from '../../../dist/server/start.js';

const [data, port] = process.argv.slice(2);
await serve({ data, port: Number(port) });
