import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import type { BodyInput } from '../kinds/index.js';
import { animalFlags } from './animal-flags.js';

type Log = ReturnType<typeof roundLog>;

const noted = (log: Log, code: string, more: Partial<BodyInput<'observation-noted'>> = {}, time = '14:00') =>
  log.one(
    'observation-noted',
    'animal:kit-1',
    { code, state: 'present', on: day(roundDay), ...more } as never,
    when(time),
  );
const left = (log: Log, reason: string) =>
  log.one(
    'treatment-not-given',
    'animal:kit-1',
    { schedule: 'roundworm', reason, round: roundId } as never,
    when('14:05'),
  );
/** The kitten with another day of birth, as it is told of signs of illness. */
const told = (log: Log, born: string = '2025-10-01') => {
  const { world, stop } = viewOf(log);
  const animal = { ...stop('kit-1').animal, born: { earliest: day(born), latest: day(born), basis: 'known' } as never };
  return animalFlags(animal, world.bySubject.get('animal:kit-1') ?? [], world.shelter, day(roundDay))
    .filter((flag) => flag.code === 'looks-ill' || flag.code === 'left-ill')
    .map((flag) => [flag.code, flag.severity, flag.for.join(' ')]);
};
const both = 'supervisor medical';

describe('a sign of illness (Verifies: ROUND-R86)', () => {
  it.each(['ill', 'fever', 'sneezing', 'not-eating', 'vomiting', 'diarrhoea'])('%s is told to both', (code) => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    noted(log, code);
    expect(told(log)).toEqual([['looks-ill', 'attention', both]]);
  });

  it.each(['pregnant', 'nursing', 'fleas', 'lamp'])('%s is none', (code) => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    noted(log, code);
    expect(told(log)).toEqual([]);
  });

  it('stops under 8 weeks, and with a second sign within a day', () => {
    const young = roundLog({ 'kit-1': ['roundworm'] });
    noted(young, 'ill');
    expect(told(young, '2026-01-10').map(([, severity]) => severity)).toEqual(['stop']);
    expect(told(young, '2026-01-04').map(([, severity]) => severity)).toEqual(['attention']);
    const two = roundLog({ 'kit-1': ['roundworm'] });
    noted(two, 'ill');
    noted(two, 'not-eating', {}, '14:01');
    expect(told(two).map(([, severity]) => severity)).toEqual(['stop', 'stop']);
    const apart = roundLog({ 'kit-1': ['roundworm'] });
    noted(apart, 'ill');
    noted(apart, 'sneezing', { on: day('2026-02-27') }, '14:01');
    expect(told(apart).map(([, severity]) => severity)).toEqual(['attention', 'attention']);
  });

  it('is a treatment left because the animal is ill, too, once', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    left(log, 'animal-ill');
    left(log, 'animal-ill');
    expect(told(log)).toEqual([['left-ill', 'attention', both]]);
    const other = roundLog({ 'kit-1': ['roundworm'] });
    left(other, 'refused-or-escaped');
    expect(told(other)).toEqual([]);
  });

  it('is none where it was not seen, is over, or was looked for since', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    noted(log, 'fever', { state: 'absent' });
    noted(log, 'vomiting', { until: day('2026-02-28') });
    noted(log, 'ill');
    noted(log, 'ill', { state: 'absent' }, '14:30');
    expect(told(log)).toEqual([]);
  });
});

describe('the counter of a round (Verifies: ROUND-R86)', () => {
  const abnormal = (log: Log) => viewOf(log).view.counts.abnormal;

  it('counts an animal with a sign of illness on the day of the round', () => {
    const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'] });
    expect(abnormal(log)).toBe(0);
    log.one('animal-identified', 'animal:kit-1', { round: roundId, by: 'chip', compared: ['chip'] }, when('13:50'));
    noted(log, 'sneezing');
    noted(log, 'ill');
    expect(abnormal(log)).toBe(1);
  });

  it('counts a weight that raises an alarm, also after a later one that does not', () => {
    const log = roundLog({ 'kit-1': ['roundworm'] });
    const weigh = (grams: number, instant: string, round: string | null) =>
      log.one('animal-weighed', 'animal:kit-1', { grams, entered: `${grams} g`, round } as never, instant);
    weigh(600, '2026-02-27T10:00:00.000Z', null);
    weigh(540, when('14:00'), roundId);
    expect(abnormal(log)).toBe(1);
    weigh(640, '2026-03-03T10:00:00.000Z', null);
    expect(abnormal(log)).toBe(1);
  });
});
