import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { FastifyInstance } from 'fastify';

const pack = promisify(gzip);
/** Bytes below which packing gains nothing: such an answer goes in one piece of the line as it is. */
const least = 1400;

/** Packs what is answered as JSON for whoever says that they can unpack it: a first fetch comes over a poor line. */
export function packAnswers(app: FastifyInstance): void {
  app.addHook('onSend', async (request, reply, payload) => {
    const isJson = String(reply.getHeader('content-type')).startsWith('application/json');
    const takes = /\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''));
    if (!isJson || typeof payload !== 'string' || payload.length < least) return payload;
    void reply.header('vary', 'accept-encoding');
    if (!takes) return payload;
    void reply.header('content-encoding', 'gzip').removeHeader('content-length');
    return await pack(payload);
  });
}
