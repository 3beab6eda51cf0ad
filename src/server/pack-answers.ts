import { constants } from 'node:zlib';
import compress from '@fastify/compress';
import type { FastifyInstance } from 'fastify';

/** Bytes below which packing gains nothing: such an answer goes in one piece of the line as it is. */
const least = 1400;
/** Of 11: an answer is packed while somebody waits for it. The files of the web app are packed ahead, with 11. */
const quality = 4;

/**
 * Packs what is answered as JSON or text for whoever says that they can unpack it: a first fetch comes over a poor line.
 * The event stream takes the line over for itself and is never packed: each event has to arrive when it is sent.
 */
export async function packAnswers(app: FastifyInstance): Promise<void> {
  await app.register(compress, {
    threshold: least,
    encodings: ['br', 'gzip'],
    globalDecompression: false,
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: quality } },
  });
}
