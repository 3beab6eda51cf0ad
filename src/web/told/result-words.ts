import type { TestRun } from '../../core/animal/animal.js';
import { say } from '../../words/say.js';
import type { Tone } from './tone.js';

/** A result in words; a reactive one that was faint says so. */
export const resultWords = (run: Pick<TestRun, 'result' | 'seen'>): string =>
  say(isFaint(run) ? 'round.result.reactive-faint' : `round.result.${run.result}`);

const isFaint = ({ result, seen }: Pick<TestRun, 'result' | 'seen'>): boolean =>
  result === 'reactive' && Object.values(seen).includes('faint');

/** Only a negative result has a tick. */
export const toneOfResult = (result: TestRun['result']): Tone =>
  result === 'negative' ? 'done' : result === 'running' ? 'running' : result === 'reactive' ? 'stop' : 'attention';
