import { describe, expect, test } from 'vitest';
import { starterFormulary, starterProtocol } from '../../../test/support/documents.js';
import { day } from '../../../test/support/log.js';
import { calculateForecast, ForecastInput } from './calculate.js';

const context = { protocol: starterProtocol(), formulary: starterFormulary(), today: day('2026-03-15') };
const animal = { born: '2026-01-20', arrived_on: '2026-03-01' };
const forecastOf = (input: object) => calculateForecast(ForecastInput.parse({ ...animal, ...input }), context);
const vaccine = (input: object) => {
  const answer = forecastOf({ schedules: ['core-vaccine'], ...input });
  return answer.ok ? answer.value.items[0] : answer.why;
};
const product = context.formulary.products.find((one) =>
  one.classes.some((name) => name.startsWith('core-vaccine')),
)?.id;

describe('the forecast calculator', () => {
  test('one line for each schedule of the protocol, in its order', () => {
    const answer = forecastOf({});
    expect(answer.ok && answer.value.items.map((item) => item.schedule)).toEqual(
      context.protocol.schedules.map((schedule) => schedule.id),
    );
    expect(answer.ok && [answer.value.on, answer.value.signed]).toEqual(['2026-03-15', false]);
  });
  test('a dose that was given moves the next one on from that day', () => {
    expect(product).toBeDefined();
    expect(vaccine({})).toMatchObject({ dose: 1 });
    const after = vaccine({ given: [{ on: '2026-03-10', product }] });
    expect(after).toMatchObject({ dose: 2, status: 'not-yet' });
    expect(vaccine({ given: [{ on: '2026-03-12', product }] })).toMatchObject({ dose: 2 });
    const [first, second] = ['2026-03-10', '2026-03-12'].map((on) => vaccine({ given: [{ on, product }] }));
    const due = [first, second].map((item) => (item !== undefined && 'due_on' in item ? item.due_on : null));
    expect(Date.parse(due[1] ?? '') - Date.parse(due[0] ?? '')).toBe(2 * 86_400_000);
  });
  test.each([
    [{ born: { earliest: '2026-01-20', latest: '2026-01-10' } }, 'log.birth-reversed'],
    [{ given: [{ on: '2026-03-01', product: 'no-such' }] }, 'dose.product-unknown'],
    [{ weights: [{ on: '2026-03-16', grams: 700 }] }, 'cli.forecast.after-the-day'],
    [{ on: '2026-03-01', observations: [{ on: '2026-03-02', code: 'ill' }] }, 'cli.forecast.after-the-day'],
  ])('%j is answered with a sentence', (input, key) => {
    const answer = forecastOf(input);
    expect(answer.ok ? null : answer.why.say).toBe(key);
  });
  test('days that are none, and fields nobody knows, are not read', () => {
    expect(ForecastInput.safeParse({ ...animal, born: '2026-02-31' }).success).toBe(false);
    expect(ForecastInput.safeParse({ ...animal, bron: '2026-02-01' }).success).toBe(false);
  });
});
