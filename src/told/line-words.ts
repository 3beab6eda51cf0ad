import { lacksSecond } from '../core/bedside/second-look.js';
import { stageOfTest } from '../log/views/blood-tests/test-stage.js';
import type { RoundLine } from '../log/views/round/round.js';
import { say } from '../words/say.js';
import type { Tone } from './tone.js';

/** How one line of a round stands, in a word, with its tone. */
export function lineWords(line: RoundLine): { readonly tone: Tone; readonly text: string } {
  if (line.chip !== undefined) {
    return { tone: line.chip === 'two-numbers' ? 'stop' : 'attention', text: say(`desk.round.line.${line.chip}`) };
  }
  switch (line.state) {
    case 'open':
      return { tone: 'plain', text: say('desk.round.line.open') };
    case 'running':
      if (line.run !== null && stageOfTest(line.run) === 'drawn') {
        return { tone: 'attention', text: say('desk.round.line.drawn') };
      }
      return { tone: 'running', text: say('desk.round.line.running') };
    case 'part':
      return { tone: 'attention', text: say('desk.round.line.part') };
    case 'not-done':
      return {
        tone: line.reason === 'chip-differs' ? 'stop' : 'attention',
        text: say('desk.round.line.not-done', { reason: say(`desk.not-given.${line.reason || 'other'}`) }),
      };
    case 'done': {
      const result = line.run?.result;
      const stop = result === 'reactive';
      if (result !== undefined) {
        const text = say(`desk.result.${result}`);
        const alone = lacksSecond(line.run?.readings);
        return {
          tone: stop ? 'stop' : line.abnormal || alone ? 'attention' : 'done',
          text: alone ? say('round.result.no-second', { result: text }) : text,
        };
      }
      if (line.answer !== undefined) {
        return { tone: line.abnormal ? 'attention' : 'done', text: say(`desk.lamp.${line.answer}`) };
      }
      return line.abnormal
        ? { tone: 'attention', text: say('desk.round.line.abnormal') }
        : { tone: 'done', text: say('desk.round.line.done') };
    }
  }
}
