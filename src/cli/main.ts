#!/usr/bin/env node
import { said } from '../core/said.js';
import { versionOf } from '../server/start.js';
import type { Command } from './command.js';
import { calculators } from './commands/calculate.js';
import { due } from './commands/due.js';
import { exporting } from './commands/export.js';
import { importing } from './commands/import.js';
import { openapi } from './commands/openapi.js';
import { plan } from './commands/plan.js';
import { record } from './commands/record.js';
import { start } from './commands/start.js';
import { verify } from './commands/verify.js';
import { done, type Exit, failed, isExit, misused } from './exit.js';
import { readGiven } from './given.js';
import { helpOf, overview } from './help.js';
import { complain, letReadersStop, tell } from './output.js';

const commands: readonly Command[] = [start, importing, due, plan, record, exporting, verify, ...calculators, openapi];

async function run(argv: readonly string[]): Promise<Exit> {
  const [name, ...args] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    tell(overview(commands));
    return done;
  }
  if (name === '--version') {
    tell(versionOf());
    return done;
  }
  const command = commands.find((one) => one.name === name);
  if (command === undefined) {
    return misused(name.startsWith('-') ? 'cli.command-first' : 'cli.unknown-command', {
      given: name,
      commands: { list: commands.map((one) => one.name) },
    });
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
