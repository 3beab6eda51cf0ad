import { describe, expect, it } from 'vitest';
import { at, day } from '../../test/support/log.js';
import { ward } from '../../test/support/ward.js';
import { OrderTerms, orderSchedule } from '../core/animal/vet-order.js';
import { buildWorld } from '../log/views/world.js';
import { say } from '../words/say.js';
import { orderValues } from './order-words.js';
import { tell } from './tell.js';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

/** Mara orders for Pip: twice a day, another dose from the third day on, outside the limits and meant so. */
function ordered(more: object = {}) {
  const log = ward();
  log.take('pip', '2025-12-20');
  const order = OrderTerms.parse({
    name: 'Drops for Pip',
    treat: { is: 'product', product: 'doxycycline-10' },
    dose: { amount: '30', unit: 'mg-per-kg', per: 'time' },
    meant: true,
    steps: [
      { fromDay: 3, dose: { amount: '10', unit: 'mg-per-kg', per: 'time' } },
      { fromDay: 5, dose: { amount: '5', unit: 'mg-per-kg', per: 'time' }, timing: { is: 'days', every: 2 } },
    ],
    starts: day('2026-03-12'),
    timing: { is: 'days', every: 1 },
    ends: { is: 'after-days', days: 10 },
    vet: 'mara',
    ...more,
  });
  const record = log.one('order-written', 'animal:pip', { order }, at('2026-03-12', '08:00'), undefined, {
    by: 'mara',
  });
  return { log, order, schedule: orderSchedule(record.id) };
}

describe('an order in words', () => {
  it('is told with its doses one after the other, each rhythm once, and that it is meant so', () => {
    const { log, order } = ordered();
    const text = plain(say('desk.told.order-written', orderValues(buildWorld(log.records), order)));
    expect(text).toContain('30 mg per kg each time; outside the usual limits, and meant so');
    expect(text).toContain(
      'once a day at first; from day 3: 10 mg per kg each time and from day 5: 5 mg per kg each time, every 2 days',
    );
  });

  it('is called by its name, and never by its number, where something was given for it or was not', () => {
    const { log, schedule } = ordered();
    const given = { schedule, product: 'doxycycline-10', volume_ul: 740, lot: null, route: 'by mouth' } as never;
    log.one('treatment-given', 'animal:pip', given, at('2026-03-12', '09:00'));
    log.one('treatment-not-given', 'animal:pip', { schedule, reason: 'other' } as never, at('2026-03-13', '09:00'));
    const world = buildWorld(log.records);
    for (const record of log.records.slice(-2)) {
      const text = say(tell(world, record));
      expect(text).toContain('Drops for Pip');
      expect(text).not.toContain(schedule);
    }
    // One that is told without its animal has no name here, and still no number.
    expect(say(tell({ ...world, animals: new Map() }, log.records.at(-1) as never))).toContain(
      'a veterinarian’s order',
    );
  });
});
