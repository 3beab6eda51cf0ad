import { type Compilable, CompiledQuery, type Kysely } from 'kysely';
import { derived } from '../../core/derived.js';
import type { Database } from './tables.js';

/** Of each database that is open, by its adapter: the text of a statement is the same in every transaction. */
const textsOf = derived((_adapter: object): Map<string, string> => new Map());

/**
 * Run a statement that is compiled once for each shape of it: compiling costs more than most of them take. `shape` names
 * everything that the text depends on; `parameters` are its values in the order of the text.
 */
export async function run<Row>(
  db: Kysely<Database>,
  shape: string,
  build: () => Compilable<Row>,
  parameters: readonly unknown[],
): Promise<Row[]> {
  const texts = textsOf(db.getExecutor().adapter);
  const text = texts.get(shape) ?? build().compile().sql;
  texts.set(shape, text);
  const { rows } = await db.executeQuery<Row>(CompiledQuery.raw(text, [...parameters]));
  return rows;
}

/** Rows in one statement: under the limit of bound values of every store (SQLite 32 766, PostgreSQL 65 535). */
export const mostAtOnce = 500;
const sizes = [mostAtOnce, 200, 80, 30, 12, 5, 2, 1];

/** Many in groups of a few sizes only, so that there are few shapes of a statement. */
export function inGroups<T>(all: readonly T[]): readonly (readonly T[])[] {
  const groups: (readonly T[])[] = [];
  for (let from = 0; from < all.length; ) {
    const size = sizes.find((one) => one <= all.length - from) ?? 1;
    groups.push(size === all.length ? all : all.slice(from, from + size));
    from += size;
  }
  return groups;
}

/** Values to be looked for in pages of a few sizes only: the last one of a page stands there several times. */
export function inPages(values: readonly string[]): readonly (readonly string[])[] {
  const pages: string[][] = [];
  for (let from = 0; from < values.length; from += mostAtOnce) {
    const page = values.slice(from, from + mostAtOnce);
    const size = sizes.findLast((one) => one >= page.length) ?? mostAtOnce;
    pages.push([...page, ...Array<string>(size - page.length).fill(page.at(-1) ?? '')]);
  }
  return pages;
}
