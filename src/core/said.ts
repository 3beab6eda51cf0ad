import type { Key, NoName, SaidWith } from '../words/en/asks.js';
import type { CalendarDate } from './calendar.js';

export type { Key };

/**
 * A sentence that has not been put into words yet: a key of the message catalogue (src/words) and its values.
 * The core explains itself in these, so that the phone, the desk, paper and the command line say the same thing
 * in whatever language the catalogue is in. What was read from a record of another version may have another key; it is
 * shown as it stands (src/words/say.ts).
 */
export interface Said {
  readonly say: Key;
  readonly with?: SayValues;
}

/** Values carry their quantity, so that one formatter writes every number with its unit. */
export type SayValue =
  | string
  | number
  | { readonly date: CalendarDate }
  | { readonly instant: string }
  | { readonly grams: number }
  | { readonly microlitres: number }
  | { readonly micrograms: number }
  | { readonly ageDays: number }
  /** A person by id: the name is known only where the sentence is said. */
  | { readonly person: string }
  | { readonly licenceOf: string }
  | { readonly list: readonly SayValue[] }
  | Said;

export type SayValues = Readonly<Record<string, SayValue>>;

/** What can follow this beginning of a key. */
export type After<Beginning extends string> = Key extends infer K
  ? K extends `${Beginning}${infer Rest}`
    ? Rest
    : never
  : never;

/** The values that a message is said with; of a key that is one of several, those that any of them needs. */
export type ValuesOf<K extends Key> = SaidWith<SayValue>[K] extends (values: infer Values) => void ? Values : never;

/** What stands behind a key where a sentence is made: its values, or nothing when it has none. */
export type Given<K extends Key> = keyof ValuesOf<K> extends NoName ? [] : [values: ValuesOf<K>];

/** The values of a message besides those that are had already. */
export type OtherValues<K extends Key, Had extends string> = Omit<ValuesOf<K>, Had | NoName>;

/** A sentence of the catalogue with exactly the values that its text names; the compiler refuses any other. */
export function said<K extends Key>(say: K, ...values: Given<K>): Said;
export function said(say: Key, values?: SayValues): Said {
  return made(say, values);
}

/** The same for whoever has had the values checked; looked at message by message, as above, all of them would be. */
export const made = (say: Key, values?: SayValues): Said => (values === undefined ? { say } : { say, with: values });

/** The answer of every decision that people can get wrong: what was asked for, or the sentence why not. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: Said };

export const ok = <T>(value: T): Outcome<T> => ({ ok: true, value });
export function no<K extends Key>(say: K, ...values: Given<K>): Outcome<never>;
export function no(say: Key, values?: SayValues): Outcome<never> {
  return { ok: false, why: made(say, values) };
}
