import type { Messages } from './index.js';

export type Key = keyof Messages;

/**
 * How a message uses the value of a name, read from its text by the compiler: `count` chooses a plural, `half` is the
 * day or the time of an instant, `plain` is all else. Most have no choices, and are read name by name.
 */
type AskedIn<Text extends string> = Text extends `${string}, ${'plural' | 'select'}, ${string}`
  ? InText<Text>
  : Named<Text>;

type Named<Text extends string, Found = never> = Text extends `${string}{${infer Name}}${infer After}`
  ? Named<After, Found | Plainly<Name>>
  : Found;

type Plainly<Inside extends string> = Inside extends `${infer Name}_${'day' | 'time'}`
  ? `half ${Name}`
  : `plain ${Inside}`;

/**
 * A message with choices is read from brace to brace in two states: in its text an opening brace names a value, and one
 * that ends the text of a choice leads back among the choices; among the choices an opening brace begins the text of one,
 * and a closing one leads back to the text around them.
 */
type InText<Text extends string, Found = never> = Text extends `${infer Before}{${infer Rest}`
  ? Before extends `${string}}${infer Choices}`
    ? AmongChoices<`${Choices}{${Rest}`, Found>
    : Rest extends `${infer Inside}}${infer After}`
      ? Inside extends `${infer Name}, ${infer Use},${string}`
        ? Rest extends `${string},${string},${infer Choices}`
          ? AmongChoices<Choices, Found | (Use extends 'plural' ? `count ${Name}` : `plain ${Name}`)>
          : never
        : InText<After, Found | Plainly<Inside>>
      : never
  : Text extends `${string}}${infer Choices}`
    ? AmongChoices<Choices, Found>
    : Found;

type AmongChoices<Choices extends string, Found> = Choices extends `${infer Before}{${infer Rest}`
  ? Before extends `${string}}${infer Text}`
    ? InText<`${Text}{${Rest}`, Found>
    : InText<Rest, Found>
  : Choices extends `${string}}${infer Text}`
    ? InText<Text, Found>
    : never;

type NameIn<Asked> = Asked extends `${string} ${infer Name}` ? Name : never;

/**
 * What each message is said with, as a function of it: of one that is one of several the compiler then finds the values
 * that serve all. A table, as it works out only the messages that are looked up. `Value` stands for a value of any kind.
 */
export type SaidWith<Value> = {
  readonly [K in Key]: (values: ValuesFor<AskedIn<Messages[K]>, Value>) => void;
};

/** The name of no value: what a message without values is said with, so that there is nothing that it takes. */
export type NoName = '';

type ValuesFor<Asked, Value> = [Asked] extends [never]
  ? { readonly [Name in NoName]?: never }
  : { readonly [Name in NameIn<Asked>]: ValueFor<Name, Asked, Value> };

type ValueFor<Name extends string, Asked, Value> = `count ${Name}` extends Asked
  ? number
  : `half ${Name}` extends Asked
    ? { readonly instant: string }
    : Value;
