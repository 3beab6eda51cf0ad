import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';
import { oneLine } from '../trouble.js';

/** Lines of what the engine finds wrong with its own file that are told. */
const mostFaults = 10;

/**
 * Runs beside the program: the engine's check of its file is one call that takes as long as the file is, and whoever asks
 * for something meanwhile would wait for it. As text, because it is the same from the sources and from what is built.
 */
const beside = `
  const { parentPort, workerData } = require('node:worker_threads');
  const Database = require(workerData.engine);
  try {
    const open = new Database(workerData.file, { readonly: true, fileMustExist: true });
    const found = open.pragma('integrity_check(' + workerData.most + ')').map((line) => line.integrity_check);
    parentPort.postMessage({ found });
    open.close();
  } catch (error) {
    parentPort.postMessage({ code: String(error.code), message: String(error.message) });
  }
`;

type Told = { readonly found: readonly string[] } | { readonly code: string; readonly message: string };

/** The engine's own look through every page and every index of a file in use; `stop` ends it, and it then rejects. */
export function checkEngine(file: string): { readonly faults: Promise<readonly string[]>; readonly stop: () => void } {
  const engine = createRequire(import.meta.url).resolve('better-sqlite3');
  const worker = new Worker(beside, { eval: true, workerData: { engine, file, most: mostFaults } });
  let told: Told | null = null;
  worker.once('message', (message: Told) => {
    told = message;
  });
  const faults = new Promise<readonly string[]>((resolve, reject) => {
    worker.once('error', reject);
    // Not before it has let go of the file: a store that is closed meanwhile would leave its journal beside it.
    worker.once('exit', () => {
      if (told === null) reject(new Error('the check of the file was ended'));
      else if ('found' in told) resolve(told.found.map(oneLine).filter((line) => line !== 'ok'));
      // A file so damaged that the check itself breaks off.
      else if (/^SQLITE_(CORRUPT|NOTADB)/.test(told.code)) resolve([oneLine(told.message)]);
      else reject(new Error(told.message));
    });
  });
  return { faults, stop: () => void worker.terminate() };
}
