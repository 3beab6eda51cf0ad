import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../test/support/round-log.js';
import { orderSchedule } from '../../core/animal/vet-order.js';
import type { PersonId } from '../../core/ids.js';
import { type NewOrder, writeOrder } from '../commands/order.js';
import { weighedFirst } from '../prepare/item-needs.js';
import { isLeft } from '../views/round/is-left.js';
import { dueIn } from '../views/world.js';
import { isWeighedFirst, nextStep, withoutSecond } from './next-step.js';
import { dueAtOf } from './order-of-line.js';

type Log = ReturnType<typeof roundLog>;
const now = at(roundDay, '13:40');

function stepOf(log: Log, animal = 'kit-1', goneOn?: ReadonlySet<string>, when = now) {
  const { world, stop } = viewOf(log);
  const step = nextStep(world, stop(animal), when, day(roundDay), goneOn);
  return step.do === 'finished' || step.do === 'two-numbers' ? 'finished' : `${step.do} ${step.line?.schedule ?? '-'}`;
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

  it('counts an animal among those to weigh first only when a dose waits for its weight (Verifies: CART-R3)', () => {
    const first = (schedules: string[], grams?: number): boolean => {
      const log = roundLog({ 'kit-1': schedules });
      if (grams !== undefined) weighed(log, grams, '13:35');
      const { world, stop } = viewOf(log);
      return isWeighedFirst(world, stop('kit-1'), now, day(roundDay));
    };
    expect(first(['weighing', 'roundworm'])).toBe(true);
    expect(first(['weighing', 'felv-test'])).toBe(false);
    expect(first(['weighing', 'roundworm'], 620)).toBe(false);
  });

  it('is among those to weigh first on the round if it is on the page before it (Verifies: CART-R3)', () => {
    for (const schedules of [['weighing', 'roundworm'], ['weighing', 'chip'], ['weighing']]) {
      const log = roundLog({ 'kit-1': schedules });
      const { world, stop } = viewOf(log);
      const { animal } = stop('kit-1');
      const own = dueIn(world, animal, day(roundDay)).filter(
        (item) =>
          item.status === 'on-hold' || (schedules.includes(item.schedule) && ['due', 'overdue'].includes(item.status)),
      );
      const before = weighedFirst(world, animal, own, now, day(roundDay));
      expect([schedules, isWeighedFirst(world, stop('kit-1'), now, day(roundDay))]).toEqual([schedules, before]);
    }
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
    expect(viewOf(log).stop('kit-1').lines.some(isLeft)).toBe(false);
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

describe("a veterinarian's order (Verifies: ROUND-R20)", () => {
  const wanted: NewOrder = {
    name: 'Eyes washed',
    treat: { is: 'words', words: 'Wash both eyes with saline' },
    starts: day(roundDay),
    timing: { is: 'times', times: ['12:30', '18:00'] },
    ends: { is: 'after-days', days: 3 },
  };
  function ordered() {
    const empty = roundLog({});
    const vera = { id: 'vera' as PersonId, licence: 'Invented 1' };
    const { shelter } = viewOf(empty).world;
    const drafts = writeOrder(shelter, vera, animalId('kit-1'), wanted, at(roundDay, '11:00'));
    const [written] = drafts.ok ? empty.add(drafts.value, 'vera') : [];
    if (written === undefined) throw new Error('no order');
    const record = { ...written, id: 'order-1' as typeof written.id };
    const id = orderSchedule(record.id);
    const own = roundLog({ 'kit-1': [id] });
    own.records.push(record);
    return { log: own, id };
  }

  it('is done at the one time that is open now, and waits before it', () => {
    const { log, id } = ordered();
    expect(stepOf(log, 'kit-1', undefined, at(roundDay, '12:00'))).toBe(`wait ${id}`);
    expect(stepOf(log)).toBe(`look ${id}`);
    const { world, stop } = viewOf(log);
    expect(dueAtOf(stop('kit-1').animal, world.shelter, id, now)).toEqual({ on: roundDay, at: '12:30' });
  });
});

describe('a chip that was read in the animal (Verifies: CHIP-R31)', () => {
  it('is a stop of its own, not something to wait for and go on from', () => {
    for (const occasion of ['identify', 'intake', 'before'] as const) {
      const log = roundLog({ 'kit-1': ['chip'] });
      weighed(log, 620, '13:30');
      const found = { raw: '977200008123456', code: '977200008123456', class: 'iso' };
      const round = occasion === 'intake' ? null : (roundId as never);
      log.one('chip-scanned', 'animal:kit-1', { target: 'animal', occasion, found, round }, at(roundDay, '13:35'));
      expect([occasion, stepOf(log)]).toEqual([occasion, 'chip chip']);
    }
  });
});
