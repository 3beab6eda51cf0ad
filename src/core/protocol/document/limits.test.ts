import { describe, expect, it } from 'vitest';
import { afterPrevious, age, giving, once, protocolOf, starter } from '../../../../test/support/protocol.js';
import { choose } from './choose.js';
import { aboutDays, limitsOutOfOrder } from './limits.js';

const saysOf = (target: object) => limitsOutOfOrder(protocolOf(giving('wormer', [once('only', target)])));

describe('limits in order (Verifies: PROT-R37)', () => {
  it('are in order in the starter protocol, whatever is chosen where its sources disagree', () => {
    const answers = starter.choices.flatMap(({ id, options }) =>
      options.map((option) => choose(starter, id, option.id)),
    );
    expect(answers.length).toBeGreaterThan(60);
    for (const made of answers) {
      if (!made.ok) throw new Error(JSON.stringify(made.why));
      expect(limitsOutOfOrder(made.value)).toEqual([]);
    }
  });

  it('tell of a dose that would be late before it may be given, by its treatment, dose and both limits', () => {
    const late = { minimum: { weeks: 3 }, latestRecommended: { weeks: 2, days: 1 } };
    const [one, ...others] = saysOf({ intervals: [afterPrevious(late)] });
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      say: 'protocol-desk.out-of-order',
      with: {
        dose: { with: { schedule: 'wormer', dose: { with: { number: 1 } } } },
        early: { say: 'desk.doc.interval.minimum' },
        late: { say: 'desk.doc.interval.latestRecommended' },
      },
    });
  });

  it('look at ages as at intervals, and take two that are equal', () => {
    expect(saysOf({ age: { minimum: age({ weeks: 9 }), maximum: age({ weeks: 8 }) } })).toMatchObject([
      { with: { early: { say: 'desk.doc.age.minimum' }, late: { say: 'desk.doc.age.maximum' } } },
    ]);
    expect(saysOf({ age: { minimum: age({ weeks: 8 }), maximum: age({ days: 56 }) } })).toEqual([]);
  });

  it('hold a month against weeks and days', () => {
    expect(aboutDays({ years: 1 })).toBe(365.25);
    expect(aboutDays({ months: 1 })).toBeGreaterThan(aboutDays({ weeks: 4, days: 2 }));
    expect(aboutDays({ months: 1 })).toBeLessThan(aboutDays({ weeks: 4, days: 3 }));
    expect(aboutDays({ months: 12, days: -4 })).toBeLessThan(aboutDays({ years: 1 }));
  });
});
