import { describe, expect, it } from 'vitest';
import { drawn, roundDay, roundId, roundLog, started, viewOf, when } from '../../../../test/support/round-log.js';
import { flagsIn } from '../../flags/flags.js';
import type { BodyInput } from '../../kinds/index.js';

type Log = ReturnType<typeof roundLog>;
const none = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
const faint = { ...none, antigen: 'faint' };

function read(log: Log, time: string, seen: object, more: Partial<BodyInput<'test-read'>>, by = 'ines'): void {
  const body = { run: 'run-1', seen, round: roundId, ...more };
  log.one('test-read', 'animal:kit-1', body as never, when(time), undefined, { by });
}
function startedLog(): Log {
  const log = roundLog({ 'kit-1': ['felv-test'] });
  drawn(log, 1, '13:40');
  started(log, 1, '13:41');
  return log;
}
const runOf = (log: Log) => viewOf(log).stop('kit-1').animal.runs[0];
const flagsOf = (log: Log) => flagsIn(viewOf(log).world, roundDay as never).map(({ code }) => code);
const missing = (log: Log) => runOf(log)?.readings?.some((one) => one.unseconded === true);

describe('a second look that nobody could have (Verifies: ROUND-R99)', () => {
  it('is still missing, and flagged, until somebody else has looked', () => {
    const log = startedLog();
    read(log, '13:50', faint, { second: 'not-looked' });
    expect(missing(log)).toBe(true);
    expect(flagsOf(log)).toContain('second-look-missing');
    read(log, '13:51', none, {}, 'sol');
    expect(missing(log)).toBe(false);
    expect(flagsOf(log)).not.toContain('second-look-missing');
  });

  it('and what the second person sees is a reading of its own: the more serious stands', () => {
    const log = startedLog();
    read(log, '13:50', faint, {});
    read(log, '13:51', none, {}, 'sol');
    expect(runOf(log)?.readings?.map(({ by }) => by)).toEqual(['ines', 'sol']);
    expect(runOf(log)?.seen).toEqual(faint);
    expect(flagsOf(log)).toContain('readings-differ');
  });
});
