#!/usr/bin/env node
import { said } from '../core/said.js';
import type { Command, CommandName } from './command.js';
import { done, type Exit, failed, isExit, misused } from './exit.js';
import { readGiven } from './given.js';
import { helpOf, overview } from './help.js';
import { complain, letReadersStop, tell } from './output.js';

const calculator = (name: CommandName) => async (): Promise<Command | undefined> =>
  (await import('./commands/calculate.js')).calculators.find((one) => one.name === name);

/** Each command is loaded when it is called: a calculator in a pipe must not wait for the server to be read. */
const commands: Readonly<Record<CommandName, () => Promise<Command | undefined>>> = {
  start: async () => (await import('./commands/start.js')).start,
  import: async () => (await import('./commands/import.js')).importing,
  due: async () => (await import('./commands/due.js')).due,
  plan: async () => (await import('./commands/plan.js')).plan,
  record: async () => (await import('./commands/record.js')).record,
  people: async () => (await import('./commands/people.js')).people,
  export: async () => (await import('./commands/export.js')).exporting,
  doctor: async () => (await import('./commands/doctor.js')).doctor,
  verify: async () => (await import('./commands/verify.js')).verify,
  prove: async () => (await import('./commands/prove.js')).prove,
  'check-proof': async () => (await import('./commands/check-proof.js')).checking,
  copy: async () => (await import('./commands/copy.js')).copying,
  restore: async () => (await import('./commands/restore.js')).restore,
  salvage: async () => (await import('./commands/salvage.js')).salvaging,
  forecast: calculator('forecast'),
  dose: calculator('dose'),
  chip: calculator('chip'),
  predict: calculator('predict'),
  openapi: async () => (await import('./commands/openapi.js')).openapi,
};
const names = Object.keys(commands) as CommandName[];

// What is written is for the account that runs this, and for nobody else on the machine: records name people.
process.umask(0o077);

async function run(argv: readonly string[]): Promise<Exit> {
  const [name, ...args] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    tell(overview(names));
    return done;
  }
  if (name === '--version') {
    tell((await import('../server/start.js')).versionOf());
    return done;
  }
  const command = Object.hasOwn(commands, name) ? await commands[name as CommandName]() : undefined;
  if (command === undefined) {
    const key = name.startsWith('-') ? 'cli.command-first' : 'cli.unknown-command';
    return misused(key, { given: name, commands: { list: names } });
  }
  const given = readGiven(command, args);
  if (given === 'help') {
    tell(helpOf(command));
    return done;
  }
  return isExit(given) ? given : command.run(given);
}

letReadersStop();
const ended = await run(process.argv.slice(2)).catch((error: unknown) =>
  failed(said('cli.unexpected-trouble', { detail: error instanceof Error ? error.message : String(error) })),
);
if (ended.why !== undefined) complain(ended.why);
// Set, not process.exit: what is still being written must come out, and a server goes on.
if (ended.code !== 0) process.exitCode = ended.code;
