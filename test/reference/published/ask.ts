import type { LedgerPart, Standing, Value } from './value.js';
import { digestOf } from './value.js';

/**
 * What is given, as text: `given('weight_lb')` is `2`, `given.list('doses')` the texts of a list, `given()` the whole
 * where it is one text. It notes what was looked at: a test that leaves out what is given asks another question.
 */
export interface Given {
  (key?: string): string;
  list(key: string): string[];
  number(key: string): number;
  has(key: string): boolean;
}

/** A question to the product. It sees only what is given, so that the numbers are those of the published file. */
export type Question = (given: Given) => unknown;
/** Where the expectation is prose, `wants` reads what is compared out of it, and out of nothing else. */
export type Ask = Question | { readonly ask: Question; readonly wants: (expect: string) => unknown };
export type Asks = Readonly<Record<string, Ask>>;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Text of a leaf; a published decimal has few digits, so that JavaScript writes it as it is printed. */
const textOf = (leaf: unknown): string => (typeof leaf === 'string' ? leaf : JSON.stringify(leaf));

function watched(value: unknown): { readonly given: Given; readonly seen: ReadonlySet<string> } {
  const seen = new Set<string>();
  const at = (key: string | undefined): unknown => {
    seen.add(key ?? '');
    const found = key === undefined ? value : isRecord(value) ? value[key] : undefined;
    if (found === undefined) throw new Error(`nothing is given as ${key ?? 'the whole'}`);
    return found;
  };
  const given = Object.assign((key?: string) => textOf(at(key)), {
    list: (key: string): string[] => {
      const all = at(key);
      return (Array.isArray(all) ? all : [all]).map(textOf);
    },
    number: (key: string): number => Number(textOf(at(key))),
    has: (key: string): boolean => isRecord(value) && key in value,
  });
  return { given, seen };
}

/** Whether an answer is what was published: an exact decimal as text is that number, all else is compared as it is. */
export function agrees(got: unknown, wanted: unknown): boolean {
  if (typeof wanted === 'number')
    return typeof got === 'string' ? /^-?\d+(\.\d+)?$/.test(got) && Number(got) === wanted : got === wanted;
  if (Array.isArray(wanted))
    return Array.isArray(got) && got.length === wanted.length && wanted.every((one, at) => agrees(got[at], one));
  if (isRecord(wanted)) {
    if (!isRecord(got)) return false;
    const keys = Object.keys(wanted);
    return keys.length === Object.keys(got).length && keys.every((key) => key in got && agrees(got[key], wanted[key]));
  }
  return got === wanted;
}

const without = (value: unknown, keys: ReadonlySet<string>): unknown =>
  isRecord(value) ? Object.fromEntries(Object.entries(value).filter(([key]) => !keys.has(key))) : value;

/** Ask the product one published value: what is wrong with it, in sentences; none when it stands as the ledger says. */
export function faultsOf(value: Value, standing: Exclude<Standing, { is: 'not-asked' }>, ask: Ask): string[] {
  const { given, seen } = watched(value.given);
  const question = typeof ask === 'function' ? ask : ask.ask;
  const out = new Set(Object.keys(standing.leftOut));
  const got = question(given);
  const unseen = isRecord(value.given)
    ? Object.keys(value.given).filter((key) => !seen.has(key) && !out.has(key))
    : seen.has('')
      ? []
      : ['the whole'];
  const idle = [...out].filter((key) => seen.has(key) || (isRecord(got) && key in got));
  const published = typeof ask === 'function' ? without(value.expect, out) : ask.wants(textOf(value.expect));
  const nothing = isRecord(published) && Object.keys(published).length === 0;
  const faults = [
    ...unseen.map((key) => `${value.id} does not look at ${key}, which is given`),
    ...idle.map((key) => `${value.id} says that ${key} is left out, and asks it`),
    ...(nothing ? [`${value.id} compares nothing`] : []),
  ];
  const same = agrees(got, published);
  if (standing.is === 'run' && !same)
    faults.push(`${value.id} expects ${JSON.stringify(published)} and got ${JSON.stringify(got)}`);
  if (standing.is === 'deviates' && same) faults.push(`${value.id} now agrees with its source; it deviates no more`);
  if (standing.is === 'deviates' && !agrees(got, standing.ours))
    faults.push(`${value.id} deviates otherwise than the ledger says: ${JSON.stringify(got)}`);
  return faults;
}

/** The published file, the ledger and the asks against each other, by id. */
export function ledgerFaults(values: readonly Value[], ledger: LedgerPart, asks: Asks): string[] {
  const ids = values.map(({ id }) => id);
  const { standing } = ledger;
  const asked = (id: string): boolean => standing[id]?.is !== undefined && standing[id].is !== 'not-asked';
  return [
    ...ids.filter((id, at) => ids.indexOf(id) !== at).map((id) => `${id} is published twice`),
    ...ids.filter((id) => standing[id] === undefined).map((id) => `${id} is not in the ledger`),
    ...Object.keys(standing).flatMap((id) => (ids.includes(id) ? [] : [`${id} is in the ledger and not published`])),
    ...ids.flatMap((id) =>
      asked(id) && asks[id] === undefined ? [`${id} is said to be run and nothing asks it`] : [],
    ),
    ...Object.keys(asks).flatMap((id) => (asked(id) ? [] : [`${id} is asked and the ledger does not say so`])),
    ...(digestOf(values) === ledger.digest ? [] : ['the published values are not those the ledger was written for']),
  ];
}

export interface Counts {
  readonly values: number;
  readonly run: number;
  readonly inPart: number;
  readonly deviates: number;
  readonly notAsked: number;
}
export function countsOf({ standing }: LedgerPart): Counts {
  const all = Object.values(standing);
  const of = (is: Standing['is']) => all.filter((one) => one.is === is).length;
  const inPart = all.filter((one) => one.is !== 'not-asked' && Object.keys(one.leftOut).length > 0).length;
  return { values: all.length, run: of('run'), inPart, deviates: of('deviates'), notAsked: of('not-asked') };
}
