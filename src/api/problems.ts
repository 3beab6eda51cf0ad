import { z } from 'zod';
import type { StoreTroubleCode } from '../log/store.js';

/**
 * Everything the server can answer instead of what was asked for: a code for programs, a status for HTTP, and a
 * sentence `server.problem.CODE` for people. The core knows no status; this is the one table between them.
 */
export const problems = {
  'request-malformed': { status: 400 },
  'request-too-large': { status: 413 },
  'not-json': { status: 415 },
  'no-such-page': { status: 404 },
  'from-another-site': { status: 403 },
  'name-unknown': { status: 421 },
  'person-missing': { status: 401 },
  'person-unknown': { status: 404 },
  'person-not-active': { status: 403 },
  'role-not-allowed': { status: 403 },
  'sign-in-wrong': { status: 401 },
  'sign-in-waits': { status: 429 },
  'code-wrong': { status: 401 },
  'secret-weak': { status: 422 },
  'device-unknown': { status: 404 },
  'device-not-enrolled': { status: 403 },
  'device-not-proven': { status: 403 },
  'device-revoked': { status: 403 },
  'last-administrator': { status: 409 },
  'person-at-work': { status: 409 },
  'no-shelter-yet': { status: 409 },
  'records-damaged': { status: 500 },
  'document-damaged': { status: 500 },
  'shelter-exists': { status: 409 },
  'setup-needs-supervisor': { status: 422 },
  'demo-not-offered': { status: 501 },
  'backup-not-offered': { status: 501 },
  'backup-not-whole': { status: 500 },
  'head-not-offered': { status: 501 },
  'head-not-signed': { status: 500 },
  'another-history': { status: 409 },
  'record-malformed': { status: 422 },
  'record-conflict': { status: 409 },
  'record-of-another-shelter': { status: 403 },
  'record-by-unknown': { status: 403 },
  'record-not-allowed': { status: 403 },
  'record-kept-apart': { status: 403 },
  'record-hand-away': { status: 403 },
  'record-not-fresh': { status: 403 },
  'record-corrects-unknown': { status: 409 },
  'photo-unreadable': { status: 422 },
  'photo-too-large': { status: 413 },
  'photo-not-plain': { status: 422 },
  'photo-missing': { status: 404 },
  'photo-damaged': { status: 500 },
  'store-busy': { status: 503 },
  'store-full': { status: 507 },
  'store-too-large': { status: 507 },
  'store-gone': { status: 500 },
  'store-trouble': { status: 500 },
  unexpected: { status: 500 },
} as const satisfies Record<string, { readonly status: number }>;

export type ProblemCode = keyof typeof problems;

/** What becomes of a store's trouble on the wire. */
export const problemOfTrouble = {
  busy: 'store-busy',
  full: 'store-full',
  'too-large': 'store-too-large',
  gone: 'store-gone',
  'folder-missing': 'store-trouble',
  'folder-not-writable': 'store-trouble',
  'network-share': 'store-trouble',
  'not-a-store': 'store-trouble',
  damaged: 'store-trouble',
  'newer-version': 'store-trouble',
  'changed-by-hand': 'store-trouble',
  failed: 'store-trouble',
} as const satisfies Record<StoreTroubleCode, ProblemCode>;

/** RFC 9457 `application/problem+json`, with the code and the unspoken sentence as extension members. */
export const Problem = z
  .object({
    type: z.string().describe('urn:roundhand:problem:CODE'),
    title: z.string().describe('The name of the status'),
    status: z.number().int(),
    detail: z.string().describe('What is wrong this time, in words'),
    code: z.enum(Object.keys(problems) as [ProblemCode, ...ProblemCode[]]),
    said: z
      .object({ say: z.string(), with: z.record(z.string(), z.unknown()).optional() })
      .describe('`detail` as message key and values'),
  })
  .meta({ id: 'Problem', title: 'Problem' });
export type Problem = z.infer<typeof Problem>;

export const problemType = (code: ProblemCode): string => `urn:roundhand:problem:${code}`;
