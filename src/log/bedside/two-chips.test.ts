import { describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { correct } from '../commands/animal.js';
import { flagsIn } from '../flags/flags.js';
import type { LogRecord } from '../record.js';
import { chipTrust } from '../views/chips/chip-trust.js';
import { nextStep } from './next-step.js';

const code = '900000000000303';
const other = '900000000000222';
type Log = ReturnType<typeof roundLog>;

/** Implanted, another number read, and both left to the desk; a vaccine is still open. */
function leftToDesk(): Log {
  const log = roundLog({ 'kit-1': ['chip', 'core-vaccine'] });
  log.one(
    'chip-implanted',
    'animal:kit-1',
    { code, site: 'between-shoulder-blades', packScan: null, round: roundId as never, lot: null },
    when('13:42'),
  );
  const found = { raw: other, code: other, class: 'iso' };
  const body = { target: 'animal', occasion: 'after', found, round: roundId } as never;
  const scan = log.one('chip-scanned', 'animal:kit-1', body, when('13:43')) as LogRecord<'chip-scanned'>;
  log.add(correct(scan, 'chip-scanned', { ...scan.body, leftToDesk: true }) as never);
  return log;
}
const stepOf = (log: Log) => {
  const { world, stop } = viewOf(log);
  return nextStep(world, stop('kit-1'), at(roundDay, '13:50'), roundDay as never).do;
};
const flagOf = (log: Log) => flagsIn(viewOf(log).world, roundDay as never).find((one) => one.code === 'chip-differs');
const trustOf = (log: Log) => {
  const { world, stop } = viewOf(log);
  return chipTrust(stop('kit-1').animal, world.shelter.answers);
};
const answer = (log: Log, says: 'done' | 'passed-on') => {
  const flag = flagOf(log)?.key ?? '';
  log.one('flag-answered', `flag:${flag}`, { flag, answer: says, note: 'Read twice at the desk.' }, when('13:48'));
};

describe('two numbers that were left to the desk (Verifies: ROUND-R97)', () => {
  it('stop everything else on the animal, and the chip is no line that is done', () => {
    const log = leftToDesk();
    expect(stepOf(log)).toBe('two-numbers');
    expect(trustOf(log)).toMatchObject({ own: code, other, stops: true });
    const line = viewOf(log)
      .stop('kit-1')
      .lines.find((one) => one.schedule === 'chip');
    expect(line).toMatchObject({ state: 'not-done', reason: 'chip-differs', abnormal: true });
  });

  it('also when the number that belongs there was read or typed since: that is one more fact, and no answer', () => {
    const log = leftToDesk();
    const found = { raw: code, code, class: 'iso' };
    const body = { target: 'animal', occasion: 'after', found, round: roundId } as never;
    log.one('chip-scanned', 'animal:kit-1', body, when('13:45'));
    expect(stepOf(log)).toBe('two-numbers');
    expect(trustOf(log)).toMatchObject({ own: code, other, stops: true });
    const line = viewOf(log)
      .stop('kit-1')
      .lines.find((one) => one.schedule === 'chip');
    expect(line).toMatchObject({ state: 'not-done', reason: 'chip-differs', chip: 'two-numbers' });
    answer(log, 'done');
    expect(stepOf(log)).toBe('give');
    expect(trustOf(log)).toBeNull();
  });

  it('until the desk has answered; passing it on is no answer', () => {
    const log = leftToDesk();
    answer(log, 'passed-on');
    expect(stepOf(log)).toBe('two-numbers');
    answer(log, 'done');
    expect(stepOf(log)).toBe('give');
    expect(trustOf(log)).toBeNull();
  });

  it('or until somebody who is named says to go on and why: flagged, and the chip stays not trusted', () => {
    const log = leftToDesk();
    const scan = viewOf(log)
      .stop('kit-1')
      .own.findLast((one) => one.kind === 'chip-scanned') as LogRecord<'chip-scanned'>;
    const word = { by: 'vet' as never, how: 'by-telephone' as const, reason: 'The vaccine does not hang on it.' };
    log.add(correct(scan, 'chip-scanned', { ...scan.body, word }) as never);
    expect(stepOf(log)).toBe('give');
    expect(trustOf(log)).toMatchObject({ other, stops: false });
    expect(flagsIn(viewOf(log).world, roundDay as never).map((one) => one.code)).toContain('chip-gone-on');
  });
});
