import type { Temporal as Published } from 'temporal-polyfill';

const own = (globalThis as { readonly Temporal?: typeof Published }).Temporal;

/** Dates and times as the browser has them; only one that has none fetches them as code. */
export const Temporal: typeof Published = own ?? (await import('temporal-polyfill/implementation')).Temporal;
