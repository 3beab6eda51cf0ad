import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import { day, starter } from '../../../../test/support/protocol.js';
import { calculateForecast, ForecastInput } from './calculate.js';

const context = { protocol: starter, formulary: starterFormulary(), today: day('2026-03-15') };
const calculate = (input: object) => calculateForecast(ForecastInput.parse(input), context);
function itemOf(input: object, schedule: string) {
  const answer = calculate(input);
  if (!answer.ok) throw new Error(answer.why.say);
  const item = answer.value.items.find((one) => one.schedule === schedule);
  if (item === undefined) throw new Error(`no item for ${schedule}`);
  return item;
}
const kitten = { born: '2026-01-20', arrived_on: '2026-03-01' };

describe('the forecast calculator', () => {
  it('gives the trace of a date: which rule bound it, its value and its source', () => {
    const given = [{ on: '2026-03-02', product: 'core-vaccine-live-1ml' }];
    const { trace, due_on } = itemOf({ ...kitten, given }, 'core-vaccine');
    expect(due_on).toBe('2026-03-16');
    expect(trace.filter((step) => step.bound)).toMatchObject([
      { rule: 'minimum-interval', value: 'P2W', date: '2026-03-16', source: 'aaha-aafp-2020-shelter' },
    ]);
    expect(trace.map((step) => step.rule)).toContain('minimum-age');
  });

  it('takes the section, a variant, a fault and orders', () => {
    expect(itemOf({ ...kitten, section: 'quarantine' }, 'health-check').times).toHaveLength(2);
    expect(itemOf(kitten, 'health-check').status).toBe('not-recommended');
    const young = { born: '2026-03-08', arrived_on: '2026-03-08' };
    expect(itemOf({ ...young, variant: 'high-risk' }, 'core-vaccine').due_on).toBe('2026-03-22');
    expect(itemOf(young, 'core-vaccine').due_on).toBe('2026-04-05');
    const spat = [{ on: '2026-03-15', product: 'pyrantel-50', fault: 'not-taken' }];
    expect(itemOf({ ...kitten, given: spat }, 'roundworm').status).toBe('overdue');
    const order = {
      name: 'Eye drops',
      treat: { is: 'words', words: 'One drop in each eye.' },
      starts: '2026-03-14',
      timing: { is: 'times', times: ['08:00', '20:00'] },
      ends: { is: 'after-days', days: 5 },
      vet: 'vera',
    };
    expect(itemOf({ ...kitten, orders: [order] }, 'order-1')).toMatchObject({
      status: 'overdue',
      latest_on: '2026-03-18',
    });
    const pyrantel = { ...order, treat: { is: 'product', product: 'pyrantel-50' } };
    const dose = {
      on: '2026-03-15',
      product: 'pyrantel-50',
      schedule: 'order-1',
      due_at: { on: '2026-03-15', at: '08:00' },
      time: '09:10',
    };
    const times = itemOf({ ...kitten, orders: [pyrantel], given: [dose] }, 'order-1').times;
    expect(times.map((one) => `${one.on} ${one.at} ${one.state}`)).toContain('2026-03-15 08:00 done');
  });

  it('a chip put in here is read again, one that came with the animal is not', () => {
    expect(itemOf({ ...kitten, chipped_on: '2026-03-14' }, 'chip-recheck').status).toBe('due');
    expect(itemOf({ ...kitten, chipped_on: '2026-02-20' }, 'chip-recheck').status).toBe('not-recommended');
  });

  it.each([
    [{ ...kitten, born: { earliest: '2026-02-01', latest: '2026-01-01' } }, 'log.birth-reversed'],
    [{ ...kitten, given: [{ on: '2026-03-02', product: 'no-such-thing' }] }, 'dose.product-unknown'],
    [{ ...kitten, given: [{ on: '2026-03-16', product: 'pyrantel-50' }] }, 'cli.forecast.after-the-day'],
    [{ ...kitten, observations: [{ on: '2026-03-16', code: 'ill' }] }, 'cli.forecast.after-the-day'],
    [{ ...kitten, variant: 'nothing' }, 'due.order.unknown'],
  ])('says why not: %j', (input, why) => {
    expect(calculate(input)).toMatchObject({ ok: false, why: { say: why } });
  });

  it('takes an estimate, another day, tests and weights, and only the schedules wanted', () => {
    const input = {
      born: { earliest: '2026-01-10', latest: '2026-01-20' },
      arrived_on: '2026-03-01',
      on: '2026-03-20',
      tests: [{ on: '2026-03-05', schedule: 'felv-test', result: 'negative' }],
      weights: [{ on: '2026-03-19', grams: 400 }],
      schedules: ['felv-test', 'chip'],
    };
    const answer = calculate(input);
    expect(answer).toMatchObject({
      ok: true,
      value: {
        on: '2026-03-20',
        protocol: 'starter@1',
        signed: false,
        items: [
          { schedule: 'felv-test', status: 'complete' },
          { schedule: 'chip', hold: 'under-weight' },
        ],
      },
    });
  });
});
