import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { said } from '../../core/said.js';
import { describeApi } from '../../server/openapi.js';
import { say } from '../../words/say.js';
import type { Command } from '../command.js';
import { done, failed } from '../exit.js';
import { tell } from '../output.js';
import { projectFolder } from '../project-folder.js';

const file = join(projectFolder, 'openapi.json');

/** Write the description of the server's routes, or check that the one in the project is up to date. */
export const openapi: Command = {
  name: 'openapi',
  options: { check: {} },
  example: 'openapi --check',
  run: async (given) => {
    const now = await describeApi();
    if (!given.flag('check')) {
      writeFileSync(file, now);
      tell(say('cli.openapi.written', { file }));
      return done;
    }
    let kept = '';
    try {
      kept = readFileSync(file, 'utf8');
    } catch {
      return failed(said('cli.openapi.missing', { file }));
    }
    if (kept !== now) return failed(said('cli.openapi.old', { file }));
    tell(say('cli.openapi.same', { file }));
    return done;
  },
};
