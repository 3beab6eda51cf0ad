import { execFileSync } from 'node:child_process';
import { root, tell } from './run.mjs';

/** Prints the changelog since the last tag, or since a commit given as argument, for CHANGELOG.md. */
const headings = { CLINICAL: 'Clinical content', FEATURE: 'Features', FIX: 'Fixes' };
const git = (...args) => execFileSync('git', args, { cwd: root, encoding: 'utf8' }).trim();

const since = process.argv[2] ?? git('tag', '--sort=-creatordate').split('\n')[0];
const bodies = git('log', '--reverse', '--format=%B', ...(since === '' ? [] : [`${since}..HEAD`])).split('\n');
for (const [mark, heading] of Object.entries(headings)) {
  const lines = bodies.filter((line) => line.startsWith(`${mark}: `)).map((line) => line.slice(mark.length + 2));
  tell(`### ${heading}\n`);
  tell(lines.length === 0 ? 'None.\n' : `${lines.map((line) => `- ${line}`).join('\n')}\n`);
}
