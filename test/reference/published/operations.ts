import { gainBetween } from '../../../src/core/growth/gain.js';
import { plain } from '../../../src/core/quantity/exact.js';
import { inGrams } from '../../../src/core/quantity/units.js';
import { alarmsAt } from '../../support/weight-rules.js';
import type { Asks } from './ask.js';
import { found, must, predict, rounded, weightOf } from './product.js';

/** A weighing so many days after birth. */
const weighing = (day: number, grams: number) => ({
  at: new Date(Date.parse('2026-03-01T08:00:00Z') + day * 86_400_000).toISOString(),
  grams,
});
const alarms = (points: readonly (readonly [day: number, grams: number])[], ageDays: number) =>
  alarmsAt(
    points.map(([day, grams]) => weighing(day, grams)),
    ageDays,
  );
const gain = (from: number, to: number, days: number) =>
  found(gainBetween(weighing(0, from), weighing(days, to)), 'gain');

export const operations: Asks = {
  'OPS-GAIN-01': (given) => {
    const [before, after] = [given.number('day0G'), given.number('day1G')];
    const raised = alarms(
      [
        [10, before],
        [11, after],
      ],
      11,
    );
    const least = raised.find((one) => one.code === 'slow-gain')?.why.with?.['least'];
    must(given('minGPerDay'), String(least), 'the least gain');
    return { gain: gain(before, after, 1).gramsPerDay, alert: raised.length > 0 };
  },
  'OPS-GAIN-02': (given) => {
    const [before, after] = [given.number('day0G'), given.number('day1G')];
    const raised = alarms(
      [
        [10, before],
        [11, after],
      ],
      11,
    );
    return { gain: gain(before, after, 1).gramsPerDay, alert: raised.length > 0 };
  },
  'OPS-GAIN-03': (given) => ({
    gLow: plain(inGrams(given('ozLow'), 'oz'), 1),
    gHigh: plain(inGrams(given('ozHigh'), 'oz'), 1),
  }),
  'OPS-GAIN-04': (given) => ({
    alert:
      alarms(
        [
          [0, given.number('birthG')],
          [2, given.number('day2G')],
        ],
        2,
      ).length > 0,
  }),
  'OPS-GAIN-05': (given) => {
    const [before, after] = [given.number('birthG'), given.number('at48hG')];
    const [raised] = alarms(
      [
        [0, before],
        [2, after],
      ],
      2,
    );
    return { lossPct: raised?.why.with?.['percent'], alert: raised !== undefined };
  },
  'OPS-GAIN-06': (given) => {
    const day = given.number('day');
    const raised = alarms(
      [
        [0, given.number('birthG')],
        [day, given.number('weightG')],
      ],
      day,
    );
    return { doubled: !raised.some((one) => one.code === 'birth-weight-not-doubled'), alert: raised.length > 0 };
  },
  'OPS-GAIN-07': (given) => ({ pct: rounded(gain(given.number('prevG'), given.number('nowG'), 1).percent, 1) }),
  'OPS-SURG-01': (given) => ({ g: weightOf(`${given('lb')} lb`).grams }),
  'OPS-FELV-01': (given) => {
    const falsePositive = given.number('falsePos');
    const truePositive = given.number('allPos') - falsePositive;
    const study = predict({ truePositive, falsePositive, falseNegative: 0, trueNegative: 0 });
    if (study.of !== 'study') throw new Error('no study');
    return { pct: rounded(String((1 - found(study.ppv, 'share').share) * 100), 1) };
  },
};
