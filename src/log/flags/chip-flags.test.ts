import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { shelterLog, shelterPeople } from '../../../test/support/shelter-log.js';
import { admission } from '../admit.js';
import type { BodyInput } from '../kinds/index.js';
import { signersOf } from '../private-side.js';
import { draft } from '../record.js';
import { meaningOfScan } from '../views/round/identity.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof shelterLog>;
const today = day('2026-03-02');
const [one, two] = ['900000000000017', '036012345678901'] as const;
const found = (code: string, more: object = {}) => ({ raw: code, code, class: 'iso', ...more });
const scan = (of: object | null, occasion = 'intake') =>
  draft('chip-scanned', 'animal:kit-1', { target: 'animal', occasion, found: of } as never, at('2026-03-02', '09:00'));
const implant = (code: string, time = '10:00') => {
  const body: BodyInput<'chip-implanted'> = { code, site: 'between-shoulder-blades', packScan: null };
  return draft('chip-implanted', 'animal:kit-1', body, at('2026-03-02', time));
};
const flags = (log: Log) =>
  flagsIn(buildWorld(log.records), today).filter(({ code }) => /^chip-(second|not-whole|raw)/.test(code));
const chipOf = (log: Log) => buildWorld(log.records).animals.get(animalId('kit-1'))?.chip;

describe('a number comes in as the reader of the house gives it (Verifies: CHIP-R36)', () => {
  async function answer(record: ReturnType<typeof scan> | ReturnType<typeof implant>): Promise<string> {
    const log = shelterLog(1);
    const [sent] = log.add([record], 'ines');
    log.records.pop();
    const admit = await admission(buildWorld(log.records).shelter, signersOf(shelterPeople), [sent], async () => []);
    const told = admit(sent);
    return told.ok ? 'in' : told.why.say;
  }
  it.each([
    [scan(found(one)), 'in'],
    [scan(null), 'in'],
    [scan(found('4A12345678', { class: '10-character' })), 'in'],
    [scan(found('985112')), 'chip.length'],
    [scan(found('900 000 000 000 017')), 'log.chip-as-read'],
    [scan(found('4A12345678')), 'log.chip-class'],
    [implant(two), 'in'],
    [implant('98511200683'), 'chip.length'],
    [implant(`${two} `), 'log.chip-as-read'],
  ])('%#: %o', async (record, expected) => expect(await answer(record)).toBe(expected));

  it('and one that is there all the same is no chip on record, and a stop', () => {
    const log = shelterLog(1);
    log.add([scan(found('985112'))], 'ines');
    expect(chipOf(log)).toBeNull();
    expect(flags(log)).toMatchObject([{ code: 'chip-not-whole', severity: 'stop' }]);
  });

  it('and what the reader sent is the number that is written down', () => {
    const log = shelterLog(1);
    log.add([scan(found(one, { raw: two }))], 'ines');
    expect(flags(log)).toMatchObject([{ code: 'chip-raw-differs', severity: 'stop' }]);
    const same = shelterLog(1);
    same.add([scan(found(one, { raw: '900 000 000 000 017' }))], 'ines');
    expect(flags(same)).toEqual([]);
  });
});

describe('a second chip in an animal (Verifies: CHIP-R35)', () => {
  it.each([
    ['one was read at intake', scan(found(one))],
    ['one was put in and never read', implant(one, '09:00')],
  ])('is a stop where %s, and both stay named', (_, first) => {
    const log = shelterLog(1);
    log.add([first, implant(two)], 'ines');
    expect(flags(log)).toMatchObject([{ code: 'chip-second', severity: 'stop' }]);
    expect(chipOf(log)).toMatchObject({ code: two, also: [one] });
    const world = buildWorld(log.records);
    const kit = world.animals.get(animalId('kit-1'));
    expect(kit && [one, two].map((code) => meaningOfScan(kit, code, world).is)).toEqual(['match', 'match']);
  });

  it('that is said to have dropped after it was in has come out again', () => {
    const log = shelterLog(1);
    const [first] = log.add([implant(one, '09:00')], 'ines');
    const gone = { code: one, implant: first?.id ?? null, why: 'dropped' } as BodyInput<'chip-discarded'>;
    log.add([draft('chip-discarded', 'animal:kit-1', gone, at('2026-03-02', '09:30'))], 'ines');
    const told = flagsIn(buildWorld(log.records), today).filter(({ code }) => code.startsWith('chip-'));
    expect(told).toMatchObject([{ code: 'chip-seen-outside', why: { say: 'flag.chip-seen-outside' } }]);
  });

  it('is none where the first was discarded, or is the same', () => {
    const log = shelterLog(1);
    const [first] = log.add([implant(one, '09:00')], 'ines');
    const gone = { code: one, implant: first?.id ?? null, why: 'seen-outside' } as BodyInput<'chip-discarded'>;
    log.add([draft('chip-discarded', 'animal:kit-1', gone, at('2026-03-02', '09:30')), implant(two)], 'ines');
    expect([flags(log), chipOf(log)?.also]).toEqual([[], undefined]);
    const same = shelterLog(1);
    same.add([implant(one, '09:00'), scan(found(one), 'after'), implant(one)], 'ines');
    expect(flags(same)).toEqual([]);
  });
});

describe('a number that was found in an animal and taken back by another (Verifies: CHIP-R40)', () => {
  const ways: [string, (log: Log, id: string) => void][] = [
    [
      'withdrawn',
      (log, id) =>
        log.one('record-withdrawn', 'animal:kit-1', { reason: 'slip' }, at('2026-03-02', '09:30'), id as never, {
          by: 'sol',
        }),
    ],
    ['corrected to nothing', (log, id) => log.add([{ ...scan(null), corrects: id as never }], 'sol')],
    ['corrected to another', (log, id) => log.add([{ ...scan(found(two)), corrects: id as never }], 'sol')],
  ];
  it.each(ways)('stays named, and a chip put in after it is a second one: %s', (_, change) => {
    const log = shelterLog(1);
    const [first] = log.add([scan(found(one))], 'ines');
    change(log, first?.id ?? '');
    const told = (code: string) => flagsIn(buildWorld(log.records), today).filter((flag) => flag.code === code);
    expect(told('chip-found-taken-back')).toMatchObject([{ severity: 'attention' }]);
    expect(JSON.stringify(told('chip-found-taken-back')[0]?.why)).toContain(one);
    log.add([implant(two)], 'sol');
    expect(told('chip-second')).toMatchObject([{ severity: 'stop' }]);
    expect(JSON.stringify(told('chip-second')[0]?.why)).toContain(one);
  });

  it('is none where who had read it puts their own right', () => {
    const log = shelterLog(1);
    const [first] = log.add([scan(found(one))], 'ines');
    log.add([{ ...scan(null), corrects: first?.id as never }, implant(two)], 'ines');
    expect(flagsIn(buildWorld(log.records), today).map(({ code }) => code)).not.toContain('chip-found-taken-back');
    expect(flags(log)).toEqual([]);
  });
});
