import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { Standing } from '../../src/core/dosing/formulary.js';
import { SourceId } from '../../src/core/ids.js';

/**
 * The project's own form for check values. One file per part in `reference/`:
 *
 *   { "part": "dosing", "groups": [
 *       { "rule": "DOSE-R3", "source": "some-source", "where": "table 2", "standing": "read",
 *         "cases": [ { "id": "CLEAR-01", "claim": "a sentence", "check": "name-of-check", "given": {...}, "expect": {...} } ] } ] }
 *
 * `source` is a key of `reference/sources.json`; `rule` a numbered rule of `docs/rules/`. `check` names the piece of
 * real code that the test runs on `given`; what it returns is compared with `expect`. These are cases of our own; values
 * as others published them lie in `reference/published/` and are asked by `published/`, see docs/reference.md.
 */
const slug = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/);

export const ReferenceSource = z.strictObject({
  id: SourceId,
  title: z.string().min(10),
  /** Chapter, table, edition or page. */
  where: z.string().default(''),
  url: z.string().default(''),
  /** How much of it was read for this project; 'none' for memory and for trade practice without a source. */
  read: z.enum(['full', 'part', 'abstract', 'quoted', 'none']),
  note: z.string().default(''),
});
export type ReferenceSource = z.infer<typeof ReferenceSource>;

export const ReferenceCase = z.strictObject({
  /** Unique over all files, e.g. `VAX-04` or `VAX-04-before` for the day before an edge. */
  id: z.string().regex(/^[A-Z]{2,5}-[A-Za-z0-9]+(-[A-Za-z0-9]+)*$/),
  claim: z.string().min(10),
  check: slug,
  given: z.unknown(),
  expect: z.unknown().refine((value) => value !== undefined && value !== null, 'a case must expect something'),
});
export type ReferenceCase = z.infer<typeof ReferenceCase>;

export const ReferenceGroup = z.strictObject({
  rule: z.string().regex(/^[A-Z]{2,6}-R\d+$/),
  source: SourceId,
  /** Further sources that the same cases rest on. */
  also: z.array(SourceId).default([]),
  where: z.string().default(''),
  /** read in the source, computed from what was read, from memory, or trade practice without a source. */
  standing: Standing,
  cases: z.array(ReferenceCase).min(1),
});
export type ReferenceGroup = z.infer<typeof ReferenceGroup>;

export const ReferenceFile = z.strictObject({ part: slug, groups: z.array(ReferenceGroup).min(1) });
export type ReferenceFile = z.infer<typeof ReferenceFile>;

const folder = new URL('../../reference/', import.meta.url);
const notParts = new Set(['sources.json']);
const readJson = (name: string): unknown => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));

export const loadSources = (): ReferenceSource[] => z.array(ReferenceSource).parse(readJson('sources.json'));
export const loadPart = (part: string): ReferenceFile => ReferenceFile.parse(readJson(`${part}.json`));
export const partNames = (): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.json') && !notParts.has(name))
    .map((name) => name.slice(0, -'.json'.length));

/** One named check: given the case's input, run the real code and return what is to be compared. */
export type Check = (given: never) => unknown;

/**
 * Declare one test per case of a part. `checks` must answer every `check` name of the file and none besides, so that
 * a case cannot be left out.
 * Numbers are compared exactly unless `close` gives the number of decimals printed in the sources.
 */
export function runPart(part: string, checks: Readonly<Record<string, Check>>): void {
  const file = loadPart(part);
  const named = new Set(file.groups.flatMap((group) => group.cases.map((one) => one.check)));

  it(`${part}: every check is used and every case has one`, () => {
    expect([...named].sort()).toEqual(Object.keys(checks).sort());
  });
  for (const group of file.groups) {
    for (const one of group.cases) {
      it(`${one.id} ${one.claim} [${group.source}, ${group.standing}] Verifies: ${group.rule}`, () => {
        const check = checks[one.check];
        if (check === undefined) throw new Error(`no check named ${one.check}`);
        expect(check(one.given as never)).toEqual(one.expect);
      });
    }
  }
}
