/** What a browser keeps from a page that came without https (W3C Secure Contexts); each has its sentence, `round.plain.*`. */
export type Plain = 'opens' | 'camera' | 'lit';

interface Offered {
  readonly serviceWorker?: unknown;
  readonly mediaDevices?: unknown;
  readonly wakeLock?: unknown;
}

/** What is missing in this browser of what https brings, asked by what it offers. */
export function withoutHttps(browser: Offered): Plain[] {
  return [
    ...(browser.serviceWorker === undefined ? (['opens'] as const) : []),
    ...(browser.wakeLock === undefined ? (['lit'] as const) : []),
    ...(browser.mediaDevices === undefined ? (['camera'] as const) : []),
  ];
}
