import { say } from '../../../words/say.js';
import { Notice } from '../state.js';

/** The amount as the order words it, where a figure would stand, and that nobody here has worked it out. */
export function AmountInWords({ words }: { words: string }) {
  return (
    <div className="stack tight">
      <p className="big-words">
        <b>{say('drawup.in-words', { words })}</b>
      </p>
      <Notice tone="attention">{say('drawup.in-words.how')}</Notice>
    </div>
  );
}
