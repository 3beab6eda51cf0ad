import type { Messages } from './index.js';

export type Key = keyof Messages;

/**
 * How a message uses the value of a name, read from its text by the compiler: `count` chooses a plural, `half` is the
 * day or the time of an instant, `plain` is all else. A message is read from brace to brace in two states: in its text an
 * opening brace names a value, and one that ends the text of a choice leads back among the choices; among the choices an
 * opening brace begins the text of one, and a closing one leads back to the text around them.
 */
type InText<Text extends string, Found = never> = Text extends `${infer Before}{${infer Rest}`
  ? Before extends `${string}}${infer Choices}`
    ? AmongChoices<`${Choices}{${Rest}`, Found>
    : Rest extends `${infer Inside}}${infer After}`
      ? Inside extends `${infer Name}, plural,${string}`
        ? Rest extends `${string},${string},${infer Choices}`
          ? AmongChoices<Choices, Found | `count ${Name}`>
          : never
        : Inside extends `${infer Name}, select,${string}`
          ? Rest extends `${string},${string},${infer Choices}`
            ? AmongChoices<Choices, Found | `plain ${Name}`>
            : never
          : InText<
              After,
              Found | (Inside extends `${infer Name}_${'day' | 'time'}` ? `half ${Name}` : `plain ${Inside}`)
            >
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

/** What a message asks for, one `use name` each; of several keys all that any of them asks for. */
export type AskedBy<K extends Key> = K extends Key ? InText<Messages[K]> : never;

/** The names of the values that a message, or any of several, is said with. */
export type NamesOf<K extends Key> = NameOf<AskedBy<K>>;
type NameOf<Asked> = Asked extends `${string} ${infer Name}` ? Name : never;
