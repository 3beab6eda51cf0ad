import type { After } from '../core/said.js';
import type { Exit } from './exit.js';

export interface Option {
  /** Word for the value in the help; left out for a switch. */
  readonly value?: string;
  readonly many?: boolean;
  /** The only values it takes. */
  readonly oneOf?: readonly string[];
}

/** Commands and options are those for which there are words. */
export type CommandName = After<'cli.'> extends infer End ? (End extends `${infer Name}.what` ? Name : never) : never;
export type Options = Readonly<Partial<Record<After<'cli.option.'>, Option>>>;

/**
 * One command of the program. What it does is the message `cli.NAME.what`, what its options do `cli.option.OPTION` or,
 * where a command means something else by it, `cli.NAME.option-OPTION`.
 */
export interface Command {
  readonly name: CommandName;
  /** Positional arguments: their word in the help, and whether one has to be there. */
  readonly argument?: { readonly word: string; readonly required: boolean; readonly oneOf?: readonly string[] };
  readonly options: Options;
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
