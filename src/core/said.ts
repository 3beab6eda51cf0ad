import type { CalendarDate } from './calendar.js';

/**
 * A sentence that has not been put into words yet: a key of the message catalogue (src/words) and its values.
 * The core explains itself in these, so that the phone, the desk, paper and the command line say the same thing
 * in whatever language the catalogue is in.
 */
export interface Said {
  readonly say: string;
  readonly with?: Readonly<Record<string, SayValue>>;
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

export const said = (say: string, values?: Readonly<Record<string, SayValue>>): Said =>
  values === undefined ? { say } : { say, with: values };

/** The answer of every decision that people can get wrong: what was asked for, or the sentence why not. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: Said };

export const ok = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const no = (say: string, values?: Readonly<Record<string, SayValue>>): Outcome<never> => ({
  ok: false,
  why: said(say, values),
});
