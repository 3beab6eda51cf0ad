import type { BrowserContext } from 'playwright-core';
// Brings the type of `window.roundhandClock` along.
import type {} from '../../src/web/clock.js';
import type { Served } from './served.js';

/** One clock for the server and every page of the journey. It stands still between the moves of the hand. */
export interface Clock {
  readonly pass: (minutes: number, seconds?: number) => Promise<void>;
}

declare global {
  interface Window {
    roundhandAhead?: number;
  }
}

export async function holdClock(start: string, served: Served, contexts: readonly BrowserContext[]): Promise<Clock> {
  let ahead = 0;
  const began = Date.parse(start);
  for (const context of contexts) {
    await context.addInitScript((ms) => {
      window.roundhandClock = () => ms + (window.roundhandAhead ?? 0);
    }, began);
  }
  return {
    pass: async (minutes, seconds = 0) => {
      ahead += (minutes * 60 + seconds) * 1000;
      // A page that is loaded later starts where the hand stands.
      for (const context of contexts) {
        await context.addInitScript((ms) => {
          window.roundhandAhead = ms;
        }, ahead);
      }
      const pages = contexts.flatMap((context) => context.pages());
      served.setClock(ahead);
      await Promise.all(
        pages.map((page) =>
          page.evaluate((ms) => {
            window.roundhandAhead = ms;
            // Pages look at the time when they come back to the front; what they then show is drawn two frames later.
            window.dispatchEvent(new Event('focus'));
            return new Promise<void>((done) => {
              requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));
            });
          }, ahead),
        ),
      );
    },
  };
}
