import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import { isOpen, nextStep, withoutSecond } from './next-step.js';

type Log = ReturnType<typeof roundLog>;
const now = at(roundDay, '13:40');

function stepOf(log: Log, animal = 'kit-1', goneOn?: ReadonlySet<string>) {
  const { world, stop } = viewOf(log);
  const step = nextStep(world, stop(animal), now, day(roundDay), goneOn);
  return step.do === 'finished' ? 'finished' : `${step.do} ${step.line?.schedule ?? '-'}`;
}

const weighed = (log: Log, grams: number, time: string, doubtful = false) =>
  log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g`, doubtful }, at(roundDay, time));

describe('the one thing to do now (Verifies: ROUND-R5)', () => {
  it('weighs first when a dose goes by weight and no weight can be used', () => {
    const log = roundLog({ 'kit-1': ['roundworm', 'felv-test'] });
    expect(stepOf(log)).toBe('weigh -');
    weighed(log, 620, '13:35');
    expect(stepOf(log)).toBe('draw felv-test');
  });

  it('keeps the order of one visit: blood, then by mouth; the running test is not waited for', () => {
    const log = roundLog({ 'kit-1': ['roundworm', 'felv-test'] });
    weighed(log, 620, '13:35');
    const run = { run: 'run-1' as never, schedule: 'felv-test' as never, round: roundId as never };
    log.one(
      'sample-drawn',
      'animal:kit-1',
      { ...run, volume_ul: 100, usable: true, sample: 'whole-blood' },
      at(roundDay, '13:36'),
    );
    expect(stepOf(log)).toBe('start felv-test');
    log.one(
      'test-started',
      'animal:kit-1',
      { ...run, kitType: 'felv-antigen-a' as never, lot: null, kitLot: 'K27', conjugateLot: 'K27', outOfColdAt: null },
      at(roundDay, '13:37'),
    );
    expect(stepOf(log)).toBe('give roundworm');
  });

  it('tries a failed draw again', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    log.one(
      'sample-drawn',
      'animal:kit-1',
      {
        run: 'run-1' as never,
        schedule: 'felv-test' as never,
        volume_ul: 80,
        usable: false,
        sample: 'whole-blood',
        round: roundId as never,
      },
      at(roundDay, '13:36'),
    );
    expect(stepOf(log)).toBe('draw felv-test');
  });

  it('is finished when every line has its end or its reason', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    log.one(
      'treatment-not-given',
      'animal:kit-1',
      { schedule: 'felv-test' as never, reason: 'animal-ill', round: roundId as never },
      at(roundDay, '13:36'),
    );
    expect(stepOf(log)).toBe('finished');
    expect(viewOf(log).stop('kit-1').lines.some(isOpen)).toBe(false);
  });
});

describe('a doubtful weight (Verifies: ROUND-R6)', () => {
  it('asks for a second weighing before anything else, unless it cannot be had', () => {
    const log = roundLog({ 'kit-1': ['felv-test'] });
    weighed(log, 6500, '13:35', true);
    expect(stepOf(log)).toBe('weigh -');
    expect(stepOf(log, 'kit-1', new Set([withoutSecond]))).toBe('draw felv-test');
    weighed(log, 640, '13:36');
    expect(stepOf(log)).toBe('draw felv-test');
  });
});

describe('what the protocol holds (Verifies: ROUND-R14)', () => {
  it('is shown as waiting, and a team may still go on', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    weighed(log, 620, '13:35');
    log.one(
      'treatment-given',
      'animal:kit-1',
      {
        schedule: 'roundworm' as never,
        product: 'pyrantel-50' as never,
        lot: 'pyr-1' as never,
        volume_ul: 120,
        route: 'by mouth',
      },
      at('2026-03-01', '10:30'),
    );
    expect(stepOf(log)).toBe('wait roundworm');
    expect(stepOf(log, 'kit-1', new Set(['roundworm']))).toBe('give roundworm');
  });
});
