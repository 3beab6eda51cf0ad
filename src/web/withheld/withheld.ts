/** What a browser can keep from a page that a round would use; each has its sentence, `round.withheld.*`. */
export type Withheld = 'shake' | 'kept' | 'opens';

/** What of a browser is asked; each part is missing where the browser withholds it. */
interface Offered {
  readonly vibrate?: unknown;
  readonly storage?: { readonly persist?: unknown };
  readonly serviceWorker?: unknown;
}

/**
 * What this browser withholds, asked by what it offers and never by its name. `kept`: its answer when it was asked to keep
 * the data; null when it has not said.
 */
export function withheldBy(browser: Offered, kept: boolean | null): Withheld[] {
  return [
    ...(typeof browser.vibrate === 'function' ? [] : (['shake'] as const)),
    ...(kept === false || typeof browser.storage?.persist !== 'function' ? (['kept'] as const) : []),
    // Without it nothing of the program stays on the device once the page is closed.
    ...(browser.serviceWorker === undefined ? (['opens'] as const) : []),
  ];
}
