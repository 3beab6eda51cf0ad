import type { Said } from '../../core/said.js';
import { say } from '../../words/say.js';

/** What the core has to say, in words. */
export function Sentence({ what }: { what: Said }) {
  return <>{say(what)}</>;
}
