// The ward of the dosing journey: `node serve-dose.mjs DATA PORT START`.
import { doseWard } from './dose-ward.mjs';
import { serveWard } from './serve-ward.mjs';

await serveWard(doseWard);
