import { parseArgs } from 'node:util';
import type { Command, Given, Options } from './command.js';
import { type Exit, misused } from './exit.js';

/** Read the arguments of one command, or say which one is wrong. `help` when help was asked for. */
export function readGiven(command: Command, args: readonly string[]): Given | Exit | 'help' {
  const config = Object.fromEntries(
    Object.entries(command.options).map(([name, option]) => [
      name,
      { type: option.value === undefined ? ('boolean' as const) : ('string' as const) },
    ]),
  );
  // Not strict: the checks below give a sentence of our own for each thing that can be wrong.
  const { tokens } = parseArgs({ args: [...args], options: config, strict: false, tokens: true });
  const values = new Map<string, string[]>();
  const positionals: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') positionals.push(token.value);
    if (token.kind !== 'option') continue;
    if (token.name === 'help' || token.rawName === '-h') return 'help';
    const option = Object.hasOwn(command.options, token.name)
      ? command.options[token.name as keyof Options]
      : undefined;
    const name = token.rawName;
    if (option === undefined) return misused('cli.unknown-option', { option: name, command: command.name });
    if (option.value === undefined) {
      if (token.value !== undefined) return misused('cli.option-takes-no-value', { option: name });
      values.set(token.name, ['']);
      continue;
    }
    const { value } = token;
    // A bare `-` is standard input; anything else that begins so is the next option.
    const next = value !== '-' && value?.startsWith('-') === true && !token.inlineValue;
    if (value === undefined || value === '' || next) {
      return misused('cli.option-needs-value', { option: name, value: option.value });
    }
    if (option.oneOf !== undefined && !option.oneOf.includes(value)) {
      return misused('cli.not-one-of', { given: value, option: name, list: { list: option.oneOf } });
    }
    const before = values.get(token.name) ?? [];
    if (before.length > 0 && option.many !== true) return misused('cli.option-twice', { option: name });
    values.set(token.name, [...before, value]);
  }
  return argumentOf(command, positionals) ?? givenOf(positionals[0] ?? null, values);
}

function argumentOf({ name, argument }: Command, positionals: readonly string[]): Exit | null {
  const [first, second] = positionals;
  const extra = argument === undefined ? first : second;
  if (extra !== undefined) return misused('cli.unexpected', { given: extra, command: name });
  if (argument?.required === true && first === undefined) {
    return misused('cli.argument-missing', { argument: argument.word, command: name });
  }
  if (first !== undefined && argument?.oneOf !== undefined && !argument.oneOf.includes(first)) {
    return misused('cli.not-one-of', { given: first, option: argument.word, list: { list: argument.oneOf } });
  }
  return null;
}

const givenOf = (argument: string | null, values: ReadonlyMap<string, string[]>): Given => ({
  argument,
  text: (option) => values.get(option)?.[0] ?? null,
  texts: (option) => values.get(option) ?? [],
  flag: (option) => values.has(option),
});
