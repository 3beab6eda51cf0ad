import { execFileSync } from 'node:child_process';
import { root, tell } from './run.mjs';

/** Prints the changelog since the last tag, or since a commit given as argument, for CHANGELOG.md. */
const headings = { CLINICAL: 'Clinical content', FEATURE: 'Features', FIX: 'Fixes' };
const git = (...args) => execFileSync('git', args, { cwd: root, encoding: 'utf8' }).trim();

const since = process.argv[2] ?? git('tag', '--sort=-creatordate').split('\n')[0];
// What begins with a mark goes on until a line ends with a full stop, the next mark or an empty line.
const bodies = git('log', '--reverse', '--format=%B%n', ...(since === '' ? [] : [`${since}..HEAD`]));
const parts = bodies
  .split(/(?<=\.)\n|\n(?=\n|(?:CLINICAL|FEATURE|FIX): )/)
  .map((part) => part.trim().replace(/\s*\n\s*/g, ' '));
for (const [mark, heading] of Object.entries(headings)) {
  const lines = parts.filter((part) => part.startsWith(`${mark}: `)).map((part) => part.slice(mark.length + 2));
  tell(`### ${heading}\n`);
  tell(lines.length === 0 ? 'None.\n' : `${lines.map((line) => `- ${line}`).join('\n')}\n`);
}
