import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';

/**
 * Runs beside the program: a passphrase is made slow on purpose (scrypt, some seconds), and whoever asks the server for
 * something meanwhile would wait. As text, because it is the same from the sources and from what is built.
 */
const beside = `
  const { parentPort, workerData } = require('node:worker_threads');
  const { createReadStream, createWriteStream } = require('node:fs');
  const { createHash } = require('node:crypto');
  const { Readable, Transform } = require('node:stream');
  const { pipeline } = require('node:stream/promises');
  const { from, to, passphrase, sealing, age, workFactor } = workerData;
  const go = async () => {
    const { Encrypter, Decrypter } = await import(age);
    const plain = createHash('sha256');
    const watched = () => new Transform({ transform(piece, _as, done) { plain.update(piece); done(null, piece); } });
    const source = createReadStream(from);
    const worker = sealing ? new Encrypter() : new Decrypter();
    if (sealing) worker.setPassphrase(passphrase);
    else worker.addPassphrase(passphrase);
    if (sealing && workFactor !== undefined) worker.setScryptWorkFactor(workFactor);
    const input = Readable.toWeb(sealing ? source.pipe(watched()) : source);
    const output = Readable.fromWeb(sealing ? await worker.encrypt(input) : await worker.decrypt(input));
    const steps = sealing ? [output] : [output, watched()];
    if (to === null) await pipeline(...steps, async function (pieces) { for await (const _piece of pieces); });
    else await pipeline(...steps, createWriteStream(to, { flags: 'wx', mode: 0o600, flush: true }));
    return plain.digest('hex');
  };
  go().then((digest) => parentPort.postMessage({ digest }), (error) => parentPort.postMessage({ fault: String(error && error.message) }));
`;

interface Work {
  readonly from: string;
  /** Null: only looked at. */
  readonly to: string | null;
  readonly passphrase: string;
  readonly sealing: boolean;
  readonly workFactor?: number | undefined;
}

function work(what: Work): Promise<string> {
  const require = createRequire(import.meta.url);
  const age = pathToFileURL(require.resolve('age-encryption')).href;
  const worker = new Worker(beside, { eval: true, workerData: { ...what, age } });
  return new Promise((resolve, reject) => {
    worker.once('message', ({ digest, fault }: { digest?: string; fault?: string }) => {
      if (digest === undefined) reject(new Error(fault));
      else resolve(digest);
    });
    worker.once('error', reject);
    worker.once('exit', () => reject(new Error('the work beside the program was ended')));
  });
}

/**
 * Seal a file with a passphrase into a new one, in the format of age-encryption.org/v1, which the tool age opens. Gives the
 * SHA-256 (hex) of what was sealed. `workFactor`: how slow a guess is made, as a power of two; the library's own (18) when
 * left out.
 */
export const seal = (from: string, to: string, passphrase: string, workFactor?: number): Promise<string> =>
  work({ from, to, passphrase, sealing: true, workFactor });

/** Open a sealed file into a new one, or only look at it; gives the SHA-256 of what is in it. Rejects when it will not open. */
export const unseal = (from: string, to: string | null, passphrase: string): Promise<string> =>
  work({ from, to, passphrase, sealing: false });
