import type { TestRun } from '../core/animal/animal.js';
import { lacksSecond } from '../core/bedside/second-look.js';
import { stageOfTest } from '../log/views/blood-tests/test-stage.js';
import { say } from '../words/say.js';
import type { Tone } from './tone.js';

type Run = Pick<TestRun, 'result' | 'seen'> &
  Partial<Pick<TestRun, 'startedAt' | 'readings'>> & { readonly unseconded?: true };

/** A result in words; a reactive one that was faint says so, and blood that no test was started with. */
export const resultWords = (run: Run): string =>
  (lacksSecond(run.readings ?? [run]) ? withoutSecond : String)(
    say(isFaint(run) ? 'round.result.reactive-faint' : `round.result.${stageOfTest(run)}`),
  );

const withoutSecond = (result: string): string => say('round.result.no-second', { result });

const isFaint = ({ result, seen }: Run): boolean => result === 'reactive' && Object.values(seen).includes('faint');

/** Only a negative result has a tick. */
export const toneOfResult = (result: TestRun['result']): Tone =>
  result === 'negative' ? 'done' : result === 'running' ? 'running' : result === 'reactive' ? 'stop' : 'attention';
