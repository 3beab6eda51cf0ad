import { say } from '../../../../words/say.js';
import { Notice } from '../../../parts/state.js';
import type { FileProblem } from './read-file.js';

const problemsShown = 50;

/** Why nothing was taken from a file, each thing with its place; nothing at all when nothing is wrong. */
export function FileProblems({ problems }: { problems: readonly FileProblem[] }) {
  if (problems.length === 0) return null;
  return (
    <Notice tone="stop" live="alert">
      {say('protocol-desk.file-refused', { count: problems.length })}
      <ul>
        {problems.slice(0, problemsShown).map(({ where, sentence }) => (
          <li key={`${where} ${sentence}`}>{sentence}</li>
        ))}
      </ul>
      {problems.length > problemsShown ? say('parts.and-more', { count: problems.length - problemsShown }) : null}
    </Notice>
  );
}
