import { say } from '../words/say.js';
import type { Command } from './command.js';

export const program = 'roundhand';

const columns = (rows: readonly (readonly [string, string])[]): string => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`).join('\n');
};

/** The help of the program: every command in a line. */
export function overview(names: readonly string[]): string {
  return [
    say('cli.overview'),
    '',
    say('cli.usage', { usage: `${program} COMMAND [OPTIONS]` }),
    '',
    columns(names.map((name) => [name, say(`cli.${name}.what`)])),
    '',
    say('cli.more', { command: `${program} COMMAND --help` }),
    '',
  ].join('\n');
}

/** The help of one command, with one example. */
export function helpOf(command: Command): string {
  const { name, argument, options, example } = command;
  const word = argument === undefined ? '' : argument.required ? ` ${argument.word}` : ` [${argument.word}]`;
  const lines = [say(`cli.${name}.what`), '', say('cli.usage', { usage: `${program} ${name}${word} [OPTIONS]` })];
  if (argument !== undefined) lines.push('', columns([[argument.word, say(`cli.${name}.argument`)]]));
  const rows = Object.entries(options).map(([option, { value }]): [string, string] => [
    `--${option}${value === undefined ? '' : ` ${value}`}`,
    optionInWords(name, option),
  ]);
  lines.push('', columns([...rows, ['--help', say('cli.option.help')]]));
  lines.push('', say('cli.example', { example: `${program} ${example}` }), '');
  return lines.join('\n');
}

/** A command's own words for an option come before the words that all commands share. */
function optionInWords(command: string, option: string): string {
  const own = `cli.${command}.option-${option}`;
  const words = say(own);
  return words === own ? say(`cli.option.${option}`) : words;
}
