import { isKey } from '../words/english.js';
import { say } from '../words/say.js';
import type { Command, CommandName, Options } from './command.js';

export const program = 'roundhand';

const columns = (rows: readonly (readonly [string, string])[]): string => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`).join('\n');
};

/** The help of the program: every command in a line. */
export function overview(names: readonly CommandName[]): string {
  return [
    say('cli.overview'),
    '',
    say('cli.usage', { usage: `${program} COMMAND [OPTIONS]` }),
    '',
    columns(names.map((name) => [name, say(`cli.${name}.what`)])),
    '',
    say('cli.rights'),
    say('cli.more', { command: `${program} COMMAND --help` }),
    '',
  ].join('\n');
}

/** The help of one command, with one example. */
export function helpOf(command: Command): string {
  const { name, argument, options, example } = command;
  const word = argument === undefined ? '' : argument.required ? ` ${argument.word}` : ` [${argument.word}]`;
  const lines = [say(`cli.${name}.what`), '', say('cli.usage', { usage: `${program} ${name}${word} [OPTIONS]` })];
  const about = `cli.${name}.argument` as const;
  if (argument !== undefined && isKey(about)) lines.push('', columns([[argument.word, say(about)]]));
  const rows = Object.entries(options).map(([option, { value }]): [string, string] => [
    `--${option}${value === undefined ? '' : ` ${value}`}`,
    optionInWords(name, option as keyof Options),
  ]);
  lines.push('', columns([...rows, ['--help', say('cli.option.help')]]));
  lines.push('', say('cli.example', { example: `${program} ${example}` }), '');
  return lines.join('\n');
}

/** A command's own words for an option come before the words that all commands share. */
function optionInWords(command: CommandName, option: keyof Options): string {
  const own = `cli.${command}.option-${option}` as const;
  return isKey(own) ? say(own) : say(`cli.option.${option}`);
}
