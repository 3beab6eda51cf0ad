import { describe, expect, it } from 'vitest';
import { drawn, roundLog, started, viewOf } from '../../test/support/round-log.js';
import { lineWords } from './line-words.js';
import { resultWords } from './result-words.js';

describe('blood that was drawn for a test that never started (Verifies: ROUND-R98)', () => {
  const lineOf = (log: ReturnType<typeof roundLog>) => {
    const line = viewOf(log)
      .stop('kit-1')
      .lines.find((one) => one.schedule === 'felv-test');
    if (line?.run == null) throw new Error('no run');
    return { line, run: line.run };
  };

  it('is called that and not a running test, in the round and in the animal’s history', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    drawn(log, 1, '13:40');
    const { line, run } = lineOf(log);
    expect(lineWords(line)).toEqual({ tone: 'attention', text: 'blood drawn, test not started' });
    expect(resultWords(run)).toBe('Blood drawn, test not started');
  });

  it('and runs once it was started', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    drawn(log, 1, '13:40');
    started(log, 1, '13:42');
    const { line, run } = lineOf(log);
    expect(lineWords(line)).toEqual({ tone: 'running', text: 'running' });
    expect(resultWords(run)).toBe('Running');
  });
});
