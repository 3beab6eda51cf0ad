import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-10';
const span = (earliest: string, latest = earliest) =>
  ({ earliest: day(earliest), latest: day(latest), basis: 'estimated' }) as const;

/** Pip, born on 20 January by the word of Ines. */
function withPip(born = span('2026-01-20'), arrivedOn = '2026-03-01'): Log {
  const log = ward();
  log.take('pip', '2026-01-20', { born, arrivedOn: day(arrivedOn) });
  return log;
}
const described = (log: Log, born: ReturnType<typeof span>, by: string, time = '09:00', corrects?: string) =>
  log.one('animal-described', 'animal:pip', { born }, at(on, time), corrects as never, {
    by,
    recordedAt: at(on, time),
  });
const withdrawn = (log: Log, id: string, by: string, time = '10:00') =>
  log.one('record-withdrawn', 'animal:pip', { reason: 'A slip.' }, at(on, time), id as never, { by });
const changed = (log: Log) => flagsIn(buildWorld(log.records), day(on)).filter(({ code }) => code === 'born-changed');
const answer = (log: Log, by: string, time: string) => {
  const flag = changed(log)[0]?.key ?? '';
  log.one('flag-answered', `flag:${flag}`, { flag, answer: 'done', note: 'Teeth seen.' }, at(on, time), undefined, {
    by,
  });
};

describe('a birth date that somebody else changes (Verifies: LOG-R182)', () => {
  it('is a stop with who changed it from which days to which, for the medical team alone to close', () => {
    const log = withPip();
    const record = described(log, span('2025-01-20', '2025-02-01'), 'ines');
    expect(changed(log)).toMatchObject([
      { severity: 'stop', closedBy: 'medical', about: record.id, for: ['medical', 'supervisor'], by: 'ines' },
    ]);
    expect(changed(log)[0]?.why).toMatchObject({
      say: 'flag.born-changed',
      with: {
        animal: 'pip',
        person: { person: 'ines' },
        from: { say: 'flag.born-changed.day', with: { day: { date: '2026-01-20' } } },
        to: { say: 'flag.born-changed.span', with: { first: { date: '2025-01-20' }, last: { date: '2025-02-01' } } },
      },
    });
    answer(log, 'tom', '11:00');
    expect(changed(log)[0]?.state).toBe('taken');
    answer(log, 'mara', '12:00');
    expect(changed(log)[0]?.state).toBe('answered');
  });

  it('stays told when it is changed back, which is told as well', () => {
    const log = withPip();
    const record = described(log, span('2025-01-20'), 'ines');
    withdrawn(log, record.id, 'tom');
    expect(changed(log).map(({ severity }) => severity)).toEqual(['stop', 'stop']);
  });

  it('is told of what stood before, whichever way it was put otherwise', () => {
    const log = withPip();
    const vet = described(log, span('2026-01-10'), 'mara');
    described(log, span('2025-01-20'), 'ines', '10:00', vet.id);
    expect(changed(log)).toMatchObject([{ why: { with: { from: { with: { day: { date: '2026-01-10' } } } } } }]);
    const back = withPip();
    withdrawn(back, described(back, span('2026-01-10'), 'mara').id, 'ines');
    expect(changed(back)).toMatchObject([{ severity: 'stop', by: 'ines' }]);
  });

  it('needs attention only where whoever gave the days puts them right that day, before anybody else', () => {
    const own = withPip(undefined, on);
    described(own, span('2026-01-02'), 'ines');
    expect(changed(own)).toMatchObject([{ severity: 'attention' }]);
    const later = withPip();
    described(later, span('2026-01-02'), 'ines');
    expect(changed(later)).toMatchObject([{ severity: 'stop' }]);
    const after = withPip(undefined, on);
    after.one('animal-weighed', 'animal:pip', { grams: 700, entered: '700' }, at(on, '09:10'), undefined, {
      by: 'tom',
    });
    described(after, span('2026-01-02'), 'ines', '23:00');
    expect(changed(after)).toMatchObject([{ severity: 'stop' }]);
  });

  it('is a stop where one’s own slip leads away from what another had said, and none where it leads back', () => {
    const log = withPip(span('2026-01-01', '2026-02-01'));
    described(log, span('2026-01-15'), 'tom');
    described(log, span('2024-01-15'), 'tom', '09:05');
    expect(changed(log).map(({ severity }) => severity)).toEqual(['stop', 'attention']);
    described(log, span('2026-01-16'), 'tom', '09:10');
    expect(changed(log).map(({ severity }) => severity)).toEqual(['stop', 'attention', 'attention']);
  });

  it('needs attention only where the new days lie among the old ones', () => {
    const log = withPip({ ...span('2025-01-01', '2026-02-01'), basis: 'unknown' } as never);
    described(log, span('2025-12-01', '2026-01-31'), 'ines');
    expect(changed(log)).toMatchObject([{ severity: 'attention' }]);
    described(log, span('2025-11-30', '2026-01-31'), 'tom', '09:10');
    expect(changed(log).map(({ severity }) => severity)).toEqual(['stop', 'attention']);
  });

  it('is a stop where days that were known are said to be known no longer', () => {
    const log = withPip();
    described(log, { ...span('2026-01-20'), basis: 'unknown' } as never, 'ines');
    expect(changed(log)).toMatchObject([{ severity: 'stop' }]);
  });

  it.each<[string, (log: Log) => void]>([
    ['it is described first', () => undefined],
    ['the medical team changes it', (log) => described(log, span('2025-01-20'), 'mara')],
    ['the days are the same', (log) => described(log, { ...span('2026-01-20'), basis: 'known' } as never, 'ines')],
    [
      'something else is described',
      (log) => log.one('animal-described', 'animal:pip', { sex: 'male' }, at(on), undefined, { by: 'ines' }),
    ],
  ])('is nothing to tell where %s', (_, act) => {
    const log = withPip();
    act(log);
    expect(changed(log)).toEqual([]);
  });
});
