import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import type { BodyInput } from '../kinds/index.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
type Body = BodyInput<'observation-noted'>;
const on = day('2026-03-10');

function withUna(): Log {
  const log = ward();
  log.take('una', '2024-01-20', { sex: 'female', arrivedOn: day('2026-03-01') });
  return log;
}
const noted = (log: Log, code: string, by: string, corrects?: string, more: Partial<Body> = {}, time = '09:00') =>
  log.one('observation-noted', 'animal:una', { code, state: 'present', on, ...more }, at(on, time), corrects as never, {
    by,
    recordedAt: at(on, corrects === undefined ? time : '10:00'),
  });
const withdrawn = (log: Log, id: string, by: string) =>
  log.one('record-withdrawn', 'animal:una', { reason: 'A slip.' }, at(on, '10:00'), id as never, { by });
const back = (log: Log) => flagsIn(buildWorld(log.records), on).filter(({ code }) => code === 'observation-taken-back');

describe('an observation that was taken back (Verifies: LOG-R122, LOG-R187)', () => {
  it('by a volunteer says who took back what of whom, and what it no longer holds', () => {
    const log = withUna();
    const seen = noted(log, 'pregnant', 'mara');
    expect(back(log)).toEqual([]);
    withdrawn(log, seen.id, 'ines');
    const [flag, ...more] = back(log);
    expect(more).toEqual([]);
    expect(flag).toMatchObject({ severity: 'stop', state: 'open', for: ['medical', 'supervisor'], by: 'ines' });
    expect(flag?.why.say).toBe('flag.observation-taken-back.due');
    expect(flag?.why.with).toMatchObject({
      animal: 'una',
      what: 'pregnant',
      noted: { person: 'mara' },
      person: { person: 'ines' },
    });
    expect(JSON.stringify(flag?.why.with?.due)).toContain('Core vaccine');
  });

  it('by a correction to something else counts as well, and is not undone by correcting once more', () => {
    const log = withUna();
    const seen = noted(log, 'fever', 'tom');
    noted(log, 'fever', 'ines', seen.id, { state: 'absent' });
    expect(back(log)).toHaveLength(1);
    noted(log, 'itches', 'ines', seen.id);
    expect(back(log)).toHaveLength(1);
  });

  it('is told where the medical team had noted it, although it held nothing', () => {
    const log = withUna();
    withdrawn(log, noted(log, 'sneezes', 'mara').id, 'ines');
    expect(back(log)).toMatchObject([{ severity: 'attention' }]);
    const own = withUna();
    withdrawn(own, noted(own, 'sneezes', 'tom').id, 'ines');
    expect(back(own)).toEqual([]);
  });

  it('by the medical team itself, or in other words only, is nothing to tell', () => {
    const log = withUna();
    withdrawn(log, noted(log, 'pregnant', 'mara').id, 'mara');
    const again = noted(log, 'fever', 'mara', undefined, { until: day('2026-03-12') }, '11:00');
    const more = { until: day('2026-03-14'), note: 'Still warm.' };
    noted(log, 'fever', 'ines', again.id, more);
    expect(back(log)).toEqual([]);
    noted(log, 'fever', 'ines', again.id, { until: day('2026-03-10') });
    expect(back(log)).toHaveLength(1);
  });

  it('is told of a sign of illness that another had noted, although it held nothing', () => {
    const log = withUna();
    const seen = noted(log, 'vomiting', 'tom');
    noted(log, 'fleas', 'ines', seen.id);
    expect(back(log)).toMatchObject([{ severity: 'attention', by: 'ines' }]);
    const own = withUna();
    noted(own, 'fleas', 'tom', noted(own, 'vomiting', 'tom').id);
    expect(back(own)).toEqual([]);
  });

  it('is told also where a volunteer had said before that it was over', () => {
    const log = withUna();
    const seen = noted(log, 'pregnant', 'tom', undefined, { on: day('2026-03-08') }, '08:00');
    noted(log, 'pregnant', 'ines', undefined, { state: 'absent' });
    withdrawn(log, seen.id, 'ines');
    expect(back(log)).toMatchObject([{ severity: 'stop', why: { say: 'flag.observation-taken-back.due' } }]);
  });

  it('goes with the medical team’s answer and with no other', () => {
    const log = withUna();
    withdrawn(log, noted(log, 'pregnant', 'mara').id, 'ines');
    const key = back(log)[0]?.key ?? '';
    const body = { flag: key, answer: 'done' as const, note: 'Felt again.' };
    log.one('flag-answered', `flag:${key}`, body, at(on, '12:00'), undefined, { by: 'tom' });
    expect(back(log)[0]?.state).toBe('taken');
    log.one('flag-answered', `flag:${key}`, body, at(on, '13:00'), undefined, { by: 'mara' });
    expect(back(log)[0]?.state).toBe('answered');
  });
});

describe('what kept an animal apart and was taken back (Verifies: LOG-R181)', () => {
  const days = { on: day('2026-03-08'), until: day('2026-03-22') };
  const seen = (log: Log, code = 'panleukopenia-exposed', by = 'tom', date = '2026-03-08') =>
    log.one('observation-noted', 'animal:una', { code, state: 'present', ...days }, at(date), undefined, { by });
  const over = { on: day('2026-03-01'), until: day('2026-03-05') };
  const ways: [string, (log: Log, id: string) => void][] = [
    ['withdrawn', (log, id) => withdrawn(log, id, 'ines')],
    [
      'corrected to have ended',
      (log, id) => noted(log, 'panleukopenia-exposed', 'ines', id, { ...days, until: day('2026-03-09') }),
    ],
    [
      'corrected to end sooner',
      (log, id) => noted(log, 'panleukopenia-exposed', 'ines', id, { ...days, until: day('2026-03-12') }),
    ],
    ['corrected to something else', (log, id) => noted(log, 'itches', 'ines', id, days)],
    ['withdrawn by its writer on a later day', (log, id) => withdrawn(log, id, 'tom')],
  ];

  it.each(ways)('is a stop for the medical team alone where it is %s by a volunteer', (_, take) => {
    const log = withUna();
    const { id } = seen(log);
    take(log, id);
    log.one('animal-moved', 'animal:una', { section: 'kittens-one' as never, kennel: '1' }, at(on, '11:00'));
    expect(back(log)).toMatchObject([
      { severity: 'stop', closedBy: 'medical', about: id, why: { say: 'flag.observation-taken-back.apart' } },
    ]);
  });

  it('is one whoever had noted it', () => {
    const log = withUna();
    withdrawn(log, seen(log, 'bite-observation', 'mara').id, 'tom');
    expect(back(log)).toMatchObject([{ severity: 'stop', closedBy: 'medical' }]);
  });

  it.each<[string, (log: Log) => void]>([
    ['the medical team takes it back', (log) => withdrawn(log, seen(log).id, 'mara')],
    [
      'it is one’s own slip of the day',
      (log) => withdrawn(log, seen(log, 'panleukopenia-exposed', 'tom', on).id, 'tom'),
    ],
    ['its time was over', (log) => withdrawn(log, noted(log, 'bite-observation', 'tom', undefined, over).id, 'ines')],
    [
      'another says the same',
      (log) => {
        seen(log, 'panleukopenia-exposed', 'ines', '2026-03-09');
        withdrawn(log, seen(log).id, 'ines');
      },
    ],
    [
      'it is to last longer',
      (log) => noted(log, 'panleukopenia-exposed', 'ines', seen(log).id, { ...days, until: day('2026-03-25') }),
    ],
  ])('is nothing to tell where %s', (_, act) => {
    const log = withUna();
    act(log);
    expect(back(log)).toEqual([]);
  });
});
