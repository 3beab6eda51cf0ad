import type { FastifyReply } from 'fastify';
import type { HeadEvent } from '../../api/wire.js';
import type { Head } from '../../log/store.js';
import type { Context } from '../context.js';

/** Seconds between signs of life, so that proxies and phones keep the line open; also how often other programs' appends are looked for. */
const keepAlive_s = 15;

/**
 * Server-sent events (HTML Living Standard, 9.2): the head at once, and whenever it has moved. `open` collects what has
 * to be ended when the server closes; the line also ends once `still` says that the session is over.
 */
export async function events(
  context: Context,
  reply: FastifyReply,
  open: Set<() => void>,
  still: () => boolean,
): Promise<void> {
  reply.hijack();
  const { raw } = reply;
  raw.writeHead(200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    connection: 'keep-alive',
    'x-accel-buffering': 'no',
  });
  let told = -1;
  const tell = (head: Head): void => {
    if (!still()) {
      end();
      return;
    }
    told = head.seq;
    const event: HeadEvent = { seq: head.seq, receivedAt: head.receivedAt };
    raw.write(`event: head\nid: ${head.seq}\ndata: ${JSON.stringify(event)}\n\n`);
  };
  const stopListening = context.grown.listen(tell);
  const timer = setInterval(() => {
    context.store.head().then(
      (head) => (head.seq === told && still() ? void raw.write(': still here\n\n') : tell(head)),
      // The store is in trouble: the line ends, and the device asks again by itself.
      end,
    );
  }, keepAlive_s * 1000);
  function end(): void {
    clearInterval(timer);
    stopListening();
    open.delete(end);
    raw.end();
  }
  open.add(end);
  raw.once('close', end);
  tell(await context.store.head());
}
