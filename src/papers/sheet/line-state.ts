import type { LineNow } from '../../log/bedside/line-now.js';
import { whyWait } from '../../log/bedside/line-now.js';
import { lineWords } from '../../told/line-words.js';
import type { Tone } from '../../told/tone.js';
import { personName, say } from '../../words/say.js';

/** How a line stands, in words with their tone. */
export interface LineState {
  readonly tone: Tone;
  readonly text: string;
}

/**
 * What the paper says of a line that is not simply to be done, in the words of the screen at the cage; null for one that is.
 */
export function lineStateText(now: LineNow): LineState | null {
  switch (now.is) {
    case 'to-do':
      return now.notBefore === null
        ? null
        : { tone: 'stop', text: say('round.wait.not-before-time', { at: { instant: now.notBefore } }) };
    case 'wait': {
      const { hold, earliest } = now.item;
      const parts = [say('ribbon.sheet.not-now'), say(whyWait(now.item))];
      if (hold?.until != null) parts.push(say('round.wait.until', { until: { date: hold.until } }));
      if (hold === null && earliest !== null) parts.push(say('round.wait.not-before', { on: { date: earliest } }));
      return { tone: 'stop', text: parts.join(' ') };
    }
    case 'given-elsewhere':
      return { tone: 'done', text: doneText(say('ribbon.sheet.given-already'), now.on) };
    case 'chip-read':
      return { tone: 'stop', text: say('ribbon.sheet.chip-read', { chip: now.code }) };
    case 'gone':
      return { tone: 'stop', text: say('ribbon.sheet.gone', { on: { date: now.on } }) };
    case 'done':
    case 'not-done':
    case 'under-way': {
      const { tone, text } = lineWords(now.line);
      return { tone, text: now.on === null ? text : doneText(text, now.on) };
    }
  }
}

const doneText = (what: string, { at, by }: { readonly at: string; readonly by: string }): string =>
  say('ribbon.sheet.state', { what, at: { instant: at }, who: personName(by) });
