import { describe, expect, it } from 'vitest';
import { drawn, entered, roundId, roundLog, started, viewOf, when } from '../../../test/support/round-log.js';
import { happenedOn } from './happened.js';

const animal = 'animal:kit-1';

/** Both tests of one draw, started a minute apart. */
function bothStarted() {
  const log = roundLog({ 'kit-1': ['felv-test', 'fiv-test'] });
  entered(log);
  drawn(log, 1, '13:33', { volume_ul: 200 });
  started(log, 1, '13:34');
  started(log, 1, '13:35', 'fiv-test');
  const tests = () => {
    const { world, view } = viewOf(log);
    return happenedOn(world, view)[0]?.tests.map((one) => [one.schedule, one.readAt_s, one.inWindow]);
  };
  return { log, tests };
}

describe('tests as they really ran (Verifies: RIBBON-R7, PLAN-R16)', () => {
  it('say what each was run for, and are read one by one', () => {
    const { log, tests } = bothStarted();
    expect(tests()).toEqual([
      ['felv-test', null, null],
      ['fiv-test', null, null],
    ]);
    log.one('test-read', animal, { run: 'run-1+fiv-test', seen: {}, round: roundId } as never, when('13:44'));
    expect(tests()).toEqual([
      ['felv-test', null, null],
      ['fiv-test', 14 * 60, true],
    ]);
    log.one('test-read', animal, { run: 'run-1', seen: {}, round: roundId } as never, when('13:59'));
    expect(tests()?.[0]).toEqual(['felv-test', 29 * 60, false]);
  });

  it('belong to the visit in which they were started, where a section is entered twice', () => {
    const { log } = bothStarted();
    log.one('section-left', `round:${roundId}`, { section: 'nursery', cleaned: [] } as never, when('13:50'));
    entered(log, '14:00');
    const { world, view } = viewOf(log);
    expect(happenedOn(world, view).map((visit) => visit.tests.length)).toEqual([2, 0]);
  });

  it('count one that was given up as never read, also when that was within its window', () => {
    const { log, tests } = bothStarted();
    log.one('test-abandoned', animal, { run: 'run-1', why: 'other', round: roundId } as never, when('13:43'));
    expect(tests()).toEqual([
      ['felv-test', null, false],
      ['fiv-test', null, null],
    ]);
  });
});
