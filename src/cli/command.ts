import type { Exit } from './exit.js';

export interface Option {
  /** Word for the value in the help; left out for a switch. */
  readonly value?: string;
  readonly many?: boolean;
  /** The only values it takes. */
  readonly oneOf?: readonly string[];
}

/**
 * One command of the program. What it does is the message `cli.NAME.what`, what its options do `cli.option.OPTION` or,
 * where a command means something else by it, `cli.NAME.option-OPTION`.
 */
export interface Command {
  readonly name: string;
  /** Positional arguments: their word in the help, and whether one has to be there. */
  readonly argument?: { readonly word: string; readonly required: boolean; readonly oneOf?: readonly string[] };
  readonly options: Readonly<Record<string, Option>>;
  /** One example, without the name of the program. */
  readonly example: string;
  readonly run: (given: Given) => Promise<Exit>;
}

/** What a person gave to a command. */
export interface Given {
  readonly argument: string | null;
  readonly text: (option: string) => string | null;
  readonly texts: (option: string) => readonly string[];
  readonly flag: (option: string) => boolean;
}

export const dataOption = { data: { value: 'DIR' } } as const;
