import type { Rest } from '../../device/store/slices.js';

/** Milliseconds of work after which a hand, a bell or a picture has its turn. */
const slice_ms = 4;

let since = performance.now();

/** Lets the browser draw and hear in between. */
const turn: () => Promise<void> =
  'scheduler' in globalThis && 'yield' in scheduler ? () => scheduler.yield() : () => nextTask();

/** By a message, not by a timer: timers wait longer the more there are of them. */
function nextTask(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
}

export const rest: Rest = {
  isDue: () => performance.now() - since > slice_ms,
  take: async () => {
    await turn();
    since = performance.now();
  },
};

/** Resolves when the page rests, or at the latest after `limit_ms`. */
export const whenAtRest = (limit_ms: number): Promise<void> =>
  new Promise((done) => {
    if ('requestIdleCallback' in globalThis) requestIdleCallback(() => done(), { timeout: limit_ms });
    else setTimeout(done, limit_ms / 2);
  });
