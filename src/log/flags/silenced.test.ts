import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import type { LogRecord } from '../record.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const today = day('2026-03-11');
const on = '2026-03-10';

function withPip(): Log {
  const log = ward();
  log.take('pip', '2026-01-20');
  return log;
}

const worm = (volume_ul: number) =>
  ({
    schedule: 'roundworm',
    product: 'pyrantel-50',
    lot: 'worm-a',
    volume_ul,
    planned_ul: 960,
    route: 'mouth',
  }) as never;
const given = (log: Log, time: string, volume_ul: number, by = 'ines', corrects?: LogRecord) =>
  log.one('treatment-given', 'animal:pip', worm(volume_ul), at(on, time), corrects?.id, {
    by,
    recordedAt: at(on, time),
  });
const withdrawn = (log: Log, time: string, record: LogRecord, by: string) =>
  log.one('record-withdrawn', 'animal:pip', { reason: 'a slip' }, at(on, time), record.id, {
    by,
    recordedAt: at(on, time),
  });
const flags = (records: readonly LogRecord[]) => flagsIn(buildWorld(records), today);
const found = (log: Log, code: string) => flags(log.records).find((flag) => flag.code === code);
const answer = (log: Log, key: string, kind: 'flag-taken' | 'flag-answered') =>
  log.one(
    kind,
    `flag:${key}`,
    (kind === 'flag-taken' ? { flag: key } : { flag: key, answer: 'done', note: 'Looked.' }) as never,
    at(on, '18:00'),
    undefined,
    { by: 'mara' },
  );

describe('a stop whose record was corrected or withdrawn (Verifies: LOG-R131)', () => {
  it('stays, says who said what instead, and goes with the answer', () => {
    const log = withPip();
    const wrong = given(log, '09:00', 9600);
    given(log, '09:30', 960, 'tom', wrong);
    const flag = found(log, 'other-amount');
    expect(flag).toMatchObject({ severity: 'stop', state: 'open', about: wrong.id });
    const words = JSON.stringify(flag?.why);
    expect(words).toContain('{"microlitres":9600}');
    expect(words).toContain('"person":"tom"');
    expect(words).toContain('"say":"flag.taken-back.given","with":{"amount":{"microlitres":960}');
    answer(log, flag?.key ?? '', 'flag-answered');
    expect(found(log, 'other-amount')?.state).toBe('answered');
  });

  it('stays when what made it double is withdrawn, both of them even', () => {
    const log = withPip();
    const first = given(log, '09:00', 960);
    const second = given(log, '10:00', 960, 'tom');
    withdrawn(log, '10:30', first, 'tom');
    expect(found(log, 'given-twice')).toMatchObject({ severity: 'stop', state: 'open' });
    withdrawn(log, '10:40', second, 'ines');
    expect(found(log, 'given-twice')).toMatchObject({ severity: 'stop', state: 'open' });
    const told = flags(log.records).map(({ key, severity }) => `${key} ${severity}`);
    expect(flags([...log.records].reverse()).map(({ key, severity }) => `${key} ${severity}`)).toEqual(told);
  });

  it('stays a stop where a correction leaves less than a stop', () => {
    const log = withPip();
    given(log, '09:30', 1000, 'tom', given(log, '09:00', 9600));
    expect(flags(log.records).filter(({ code }) => code === 'other-amount')).toMatchObject([{ severity: 'stop' }]);
  });

  it('stays about chips, and when the whole animal is taken back', () => {
    const log = withPip();
    const chip = '900000000000001';
    const chipIn = { code: chip, site: 'between-shoulder-blades', packScan: null } as never;
    log.one('chip-implanted', 'animal:pip', chipIn, at(on, '09:00'));
    const read = { raw: '900000000000019', code: '900000000000019', class: 'iso' };
    const scan = log.one(
      'chip-scanned',
      'animal:pip',
      { target: 'animal', occasion: 'after', found: read },
      at(on, '09:02'),
    );
    expect(found(log, 'chip-differs')).toBeDefined();
    withdrawn(log, '09:30', scan, 'tom');
    expect(found(log, 'chip-differs')).toMatchObject({ severity: 'stop', state: 'open' });
    const pip = log.records.find(({ kind }) => kind === 'animal-taken-in');
    if (pip !== undefined) withdrawn(log, '10:00', pip, 'mara');
    expect(found(log, 'chip-differs')).toMatchObject({ severity: 'stop', state: 'open' });
  });

  it('of one’s own slip is attention only while nobody else has recorded anything or taken it', () => {
    const log = withPip();
    const wrong = given(log, '09:00', 9600);
    const key = found(log, 'other-amount')?.key ?? '';
    given(log, '09:01', 960, 'ines', wrong);
    expect(found(log, 'other-amount')).toMatchObject({ severity: 'attention', state: 'open' });
    answer(log, key, 'flag-taken');
    expect(found(log, 'other-amount')).toMatchObject({ severity: 'stop', state: 'taken' });
    const other = withPip();
    const slip = given(other, '09:00', 9600);
    other.one('animal-weighed', 'animal:pip', { grams: 900, entered: '900 g' } as never, at(on, '09:05'), undefined, {
      by: 'tom',
    });
    given(other, '09:10', 960, 'ines', slip);
    expect(found(other, 'other-amount')).toMatchObject({ severity: 'stop' });
  });

  it('keeps a lesser flag that somebody has taken, and no other', () => {
    const log = withPip();
    const wrong = given(log, '09:00', 1000);
    const key = found(log, 'other-amount')?.key ?? '';
    given(log, '09:30', 960, 'tom', wrong);
    expect(found(log, 'other-amount')).toBeUndefined();
    answer(log, key, 'flag-taken');
    expect(found(log, 'other-amount')).toMatchObject({ severity: 'attention', state: 'taken' });
  });
});
