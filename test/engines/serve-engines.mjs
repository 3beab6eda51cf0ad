// The ward of the round in other engines: `node serve-engines.mjs DATA PORT START`.
import { serveWard } from '../journey/serve-ward.mjs';
import { engineWard } from './ward.mjs';

await serveWard(engineWard);
