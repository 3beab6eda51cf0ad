import type { IntlMessageFormat } from 'intl-messageformat';

/** ICU text, or what the parser makes of it: the web app gets its messages parsed. */
export type Message = string | ReturnType<IntlMessageFormat['getAst']>;

/** All that changes with the language: the messages, and how days, times, ages and lists are written. */
export interface Language {
  /** BCP 47 tag; chooses the plural rules. */
  readonly tag: string;
  /** Its name in itself. */
  readonly name: string;
  /** ICU messages by key. Text only: `<` is a letter like any other. */
  readonly messages: Readonly<Record<string, Message>>;
  /** Told of a key that has no message here, where not every message is here from the start. */
  readonly missing?: (key: string) => void;
  readonly day: (day: { readonly year: number; readonly month: number; readonly day: number }) => string;
  readonly time: (time: { readonly hour: number; readonly minute: number }) => string;
  /** An age from whole days. */
  readonly age: (days: number) => string;
  readonly list: (items: readonly string[]) => string;
}
