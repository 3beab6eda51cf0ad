import { z } from 'zod';

/** Exact decimals are text ("0.05"), so that nothing is lost between file, wire and arithmetic. */
export const Exact = z.string().regex(/^\d{1,9}(\.\d{1,9})?$/, 'a plain decimal such as 0.05');
export type Exact = z.infer<typeof Exact>;

/** How far a figure may be trusted: read in the source, computed from it, from memory, or trade practice. */
export const Standing = z.enum(['read', 'computed', 'from-memory', 'common-practice']);
export type Standing = z.infer<typeof Standing>;

export const Route = z.enum([
  'by mouth',
  'under the skin',
  'into muscle',
  'into a vein',
  'on the skin',
  'in the ear',
  'in the eye',
]);
export type Route = z.infer<typeof Route>;
