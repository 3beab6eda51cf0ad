import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-12';
const noted = (log: Log, code: string, state: 'present' | 'absent', by: string, date = on) =>
  log.one('observation-noted', 'animal:pip', { code, state, on: day(date) }, at(date), undefined, { by });
const withPip = (section = 'kittens-one'): Log => {
  const log = ward();
  log.take('pip', '2026-01-20', { section: section as never, arrivedOn: day('2026-03-01') });
  return log;
};
const flags = (log: Log, code: string) => flagsIn(buildWorld(log.records), day(on)).filter((one) => one.code === code);

describe('an animal that bit a person (Verifies: LOG-R185)', () => {
  const bites = (log: Log) => flags(log, 'bit-somebody');

  it('is a stop for the desk and the medical team, until the medical team has answered', () => {
    const log = withPip();
    const bite = noted(log, 'bite', 'present', 'ines');
    expect(bites(log)).toMatchObject([{ severity: 'stop', about: bite.id, for: ['supervisor', 'medical'] }]);
    const [flag] = bites(log);
    const body = { flag: flag?.key ?? '', answer: 'done' as const, note: 'Watched for ten days.' };
    log.one('flag-answered', `flag:${flag?.key}`, body, at(on, '12:00'), undefined, { by: 'tom' });
    expect(bites(log)[0]?.state).toBe('taken');
    log.one('flag-answered', `flag:${flag?.key}`, body, at(on, '13:00'), undefined, { by: 'mara' });
    expect(bites(log)[0]?.state).toBe('answered');
  });

  it('stays one when it leaves, and when another says that it is over', () => {
    const log = withPip();
    noted(log, 'bite', 'present', 'ines', '2026-03-11');
    noted(log, 'bite', 'absent', 'tom');
    const left = { how: 'adopted', on: day(on), note: '', word: null } as never;
    log.one('animal-left', 'animal:pip', left, at(on, '15:00'), undefined, { by: 'mara' });
    expect(bites(log)).toMatchObject([{ state: 'open', severity: 'stop' }]);
  });
});

describe('what was seen and is said to be over (Verifies: LOG-R174)', () => {
  const over = (log: Log) => flags(log, 'seen-no-more');

  it('is told with what no longer waits for it, and by whom', () => {
    const log = withPip();
    noted(log, 'fever', 'present', 'ines', '2026-03-11');
    const end = noted(log, 'fever', 'absent', 'tom');
    expect(over(log)).toMatchObject([
      { severity: 'attention', about: end.id, for: ['supervisor', 'medical'], why: { say: 'flag.seen-no-more.due' } },
    ]);
    expect(over(log)[0]?.why.with).toMatchObject({ person: { person: 'tom' }, noted: { person: 'ines' } });
    expect(JSON.stringify(over(log)[0]?.why.with?.['due'])).toContain('ore');
  });

  it('is a stop for the medical team where it kept the animal apart', () => {
    const log = withPip('quarantine');
    noted(log, 'panleukopenia-exposed', 'present', 'ines', '2026-03-11');
    noted(log, 'panleukopenia-exposed', 'absent', 'tom');
    expect(over(log)).toMatchObject([{ severity: 'stop', closedBy: 'medical', why: { say: 'flag.seen-no-more' } }]);
  });

  it.each<[string, (log: Log) => void]>([
    [
      'the medical team says so',
      (log) => [noted(log, 'fever', 'present', 'ines', '2026-03-11'), noted(log, 'fever', 'absent', 'mara')],
    ],
    [
      'it is one’s own slip of the day',
      (log) => [noted(log, 'fever', 'present', 'ines'), noted(log, 'fever', 'absent', 'ines')],
    ],
    [
      'it held nothing',
      (log) => [noted(log, 'shy', 'present', 'ines', '2026-03-11'), noted(log, 'shy', 'absent', 'tom')],
    ],
    ['nobody had seen it', (log) => noted(log, 'fever', 'absent', 'tom')],
    [
      'it stands, as the medical team’s',
      (log) => [noted(log, 'fever', 'present', 'mara', '2026-03-11'), noted(log, 'fever', 'absent', 'tom')],
    ],
  ])('is not told where %s', (_, act) => {
    const log = withPip();
    act(log);
    expect(over(log)).toEqual([]);
  });
});

describe('a move out of quarantine with nothing on record that says why it was there (Verifies: LOG-R175)', () => {
  const left = (log: Log) => flags(log, 'left-quarantine');
  const moved = (log: Log, section = 'kittens-one', by = 'tom') =>
    log.one('animal-moved', 'animal:pip', { section: section as never, kennel: '1' }, at(on, '12:00'), undefined, {
      by,
    });

  it('is told', () => {
    const log = withPip('quarantine');
    const move = moved(log);
    expect(left(log)).toMatchObject([{ severity: 'attention', about: move.id, for: ['supervisor', 'medical'] }]);
  });

  it.each<[string, (log: Log) => void, string, string]>([
    ['the medical team moves it', () => undefined, 'kittens-one', 'mara'],
    ['it stays in quarantine', () => undefined, 'quarantine', 'tom'],
    [
      'an exposure was noted',
      (log) => noted(log, 'panleukopenia-exposed', 'present', 'ines', '2026-03-02'),
      'kittens-one',
      'tom',
    ],
  ])('is not where %s', (_, act, to, by) => {
    const log = withPip('quarantine');
    act(log);
    moved(log, to, by);
    expect(left(log)).toEqual([]);
  });

  it('is not from one clean room to another', () => {
    const log = withPip();
    moved(log);
    expect(left(log)).toEqual([]);
  });
});
