import { store } from './here.js';
import { whenAtRest } from './rest.js';

/** Milliseconds until the part of the program that exchanges with the server is asked for again. */
const nextTry_ms = 5_000;

/** The page first; but the longest that the exchange waits for it, in milliseconds. */
const pageFirst_ms = 1_000;

/** The exchange comes after what is on the screen; where its part of the program cannot be fetched, nor can the server be reached. */
export async function beginExchange(): Promise<void> {
  try {
    await whenAtRest(pageFirst_ms);
    const { sync } = await import('./exchange.js');
    sync.start();
  } catch {
    store.say({ server: 'out-of-reach' });
    setTimeout(() => void beginExchange(), nextTry_ms);
  }
}
