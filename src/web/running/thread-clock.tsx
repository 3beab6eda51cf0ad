import type { ReadWindow } from '../../core/point-of-care/window.js';
import { say } from '../../words/say.js';
import { msOf } from '../clock.js';
import { clockText } from '../parts/thread.js';
import { phaseOf } from './running.js';

/** What is left to the opening or, once open, to the close; a word says which. */
export function ThreadClock({ window, now_ms }: { window: ReadWindow; now_ms: number }) {
  switch (phaseOf({ window }, now_ms)) {
    case 'running':
      return <span className="thread-clock mono">{clockText(msOf(window.opensAt) - now_ms)}</span>;
    case 'open':
      return (
        <span className="thread-clock open mono">
          <span className="word">{say('round.window-open')}</span> {clockText(msOf(window.closesAt) - now_ms)}
        </span>
      );
    case 'closed':
      return <span className="thread-clock closed">{say('round.window-closed')}</span>;
  }
}
