import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { z } from 'zod';

/** The files of published values, one a part. An id stands in one of them only. */
export const parts = [
  'dosing',
  'microchip',
  'operations',
  'protocols',
  'common-practice',
  'clinical',
  'standards',
  'week-plan',
] as const;
export type Part = (typeof parts)[number];

/** One published value as it was handed over: what is given, what is expected, and where it stands. */
export const Value = z.strictObject({
  id: z.string().regex(/^[A-Z]{2,6}[A-Za-z0-9-]*$/),
  claim: z.string().min(10),
  given: z.unknown(),
  expect: z.unknown(),
  source: z.string().min(3),
  where: z.string(),
  status: z.string().min(3),
});
export type Value = z.infer<typeof Value>;

const words = z.string().min(20);
/** What is not asked of a value that is run otherwise: keys of its given or expect, each with why. */
const leftOut = z.record(z.string(), words).default({});
const rule = z.string().regex(/^[A-Z]{2,6}-R\d+$/);
/** The piece of work that will ask it; null: no piece of work that is planned does. */
const issue = z.number().int().positive().nullable();

/** How the product stands to one published value. */
export const Standing = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('run'), rule, leftOut }),
  /** `ours` is what the product answers instead. */
  z.strictObject({ is: z.literal('deviates'), rule, leftOut, ours: z.unknown(), reason: words }),
  z.strictObject({ is: z.literal('not-asked'), reason: words, issue }),
]);
export type Standing = z.infer<typeof Standing>;

const folder = new URL('../../../reference/', import.meta.url);
const readJson = (name: string): unknown => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));

export const publishedOf = (part: Part): readonly Value[] =>
  z
    .strictObject({ part: z.literal(part), notes: z.array(z.string()).default([]), values: z.array(Value).min(1) })
    .parse(readJson(`published/${part}.json`)).values;

/** A part of the ledger: the digest of its published file, and how every id of it stands. */
export const LedgerPart = z.strictObject({ digest: z.string(), standing: z.record(z.string(), Standing) });
export type LedgerPart = z.infer<typeof LedgerPart>;
export const ledgerOf = (part: Part): LedgerPart => LedgerPart.parse(readJson(`ledger/${part}.json`));

/** What the published values say, in one short text: a value that is written over to make a test pass changes it. */
export const digestOf = (values: readonly Value[]): string =>
  createHash('sha256')
    .update(JSON.stringify(values.map(({ id, given, expect }) => [id, given, expect])))
    .digest('hex')
    .slice(0, 16);
