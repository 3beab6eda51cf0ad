import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../test/support/round-log.js';
import { flagsIn } from '../flags/flags.js';
import type { BodyInput } from '../kinds/index.js';
import { chipCourse, openDifference } from '../views/chips/chip-course.js';
import { inDeviceOrder } from '../views/device-order.js';
import { provesReader } from './reader-tried.js';

const code = '900000000000303';
const ofPack = '900000000000304';
const neighbours = '985112006831826';
const stray = '900000000000222';
type Log = ReturnType<typeof roundLog>;

const scan = (
  log: Log,
  animal: string,
  occasion: BodyInput<'chip-scanned'>['occasion'],
  found: string | null,
  time: string,
) =>
  log.one(
    'chip-scanned',
    `animal:${animal}`,
    {
      target: occasion === 'pack' ? 'pack' : occasion === 'reader' ? 'known' : 'animal',
      occasion,
      found: found === null ? null : { raw: found, code: found, class: 'iso' },
      round: roundId as never,
    },
    at(roundDay, time),
  );
const implant = (log: Log, number: string, time: string) =>
  log.one(
    'chip-implanted',
    'animal:kit-1',
    { code: number, site: 'between-shoulder-blades', packScan: null, round: roundId as never, lot: 'chips-1' as never },
    at(roundDay, time),
  );

/** The chip is in kit-1 and nothing was read since; kit-2 has one on record, and a box holds one more. */
function unread(): Log {
  const log = roundLog({ 'kit-1': ['chip'], 'kit-2': [] });
  const box = { of: { is: 'chips' as const, codes: [code, ofPack] }, lotText: 'C1', expires: day('2030-01-01') };
  log.one('lot-received', 'lot:chips-1', { ...box, pieces: 2 }, at('2026-03-01', '09:00'));
  scan(log, 'kit-2', 'intake', neighbours, '11:00');
  scan(log, 'kit-1', 'before', null, '13:40');
  implant(log, code, '13:42');
  scan(log, 'kit-1', 'after', null, '13:43');
  return log;
}
const proves = (log: Log, number: string): boolean => {
  const { world, stop } = viewOf(log);
  return provesReader(world, stop('kit-1').animal, number);
};
const courseOf = (log: Log) => chipCourse(inDeviceOrder(log.records.filter((one) => one.subject === 'animal:kit-1')));

describe('what proves that a reader reads (Verifies: CHIP-R34)', () => {
  it('is a chip of a box, or one on the record of another animal', () => {
    const log = unread();
    expect(proves(log, ofPack)).toBe(true);
    expect(proves(log, neighbours)).toBe(true);
  });

  it('is no number that nobody knows, and none that the animal in doubt may carry', () => {
    const log = unread();
    expect(proves(log, stray)).toBe(false);
    expect(proves(log, code)).toBe(false);
    // An earlier chip of the box that went into this animal and counted as lost may still be in it.
    const first = log.records.find((record) => record.kind === 'chip-implanted')?.id ?? null;
    const gone = { code, implant: first, why: 'not-found' as const, lot: null, round: roundId as never };
    log.one('chip-discarded', 'animal:kit-1', gone, at(roundDay, '13:50'));
    implant(log, ofPack, '13:51');
    expect(proves(log, code)).toBe(false);
  });
});

describe('another number once read stops the discard (Verifies: CHIP-R34)', () => {
  it('whatever is not read afterwards, with a reader that reads', () => {
    const log = unread();
    scan(log, 'kit-1', 'after', stray, '13:44');
    scan(log, 'kit-1', 'after', null, '13:45');
    scan(log, 'kit-1', 'reader', neighbours, '13:46');
    scan(log, 'kit-1', 'after', null, '13:47');
    expect(courseOf(log)).toMatchObject({ is: 'differs', found: stray });
    const { stop } = viewOf(log);
    expect(openDifference(stop('kit-1').animal, stop('kit-1').own)).toMatchObject({ expected: code, found: stray });
  });
});

describe('once another cat was on the table and this one has been made sure of', () => {
  it('it is scanned afresh: what was not read before says nothing of it', () => {
    const log = unread();
    scan(log, 'kit-1', 'after', stray, '13:44');
    scan(log, 'kit-1', 'after', null, '13:45');
    scan(log, 'kit-1', 'identify', stray, '13:45');
    const sure = { round: roundId as never, by: 'marks' as const, compared: ['collar'], reason: '' };
    log.one('animal-identified', 'animal:kit-1', sure as never, at(roundDay, '13:46'));
    expect(courseOf(log).is).toBe('scan-after');
    expect(viewOf(log).stop('kit-1').animal.chip?.differs).toBeUndefined();
  });
});

describe('a reader that was tried on a number nobody knows (Verifies: CHIP-R34)', () => {
  const flagsOf = (log: Log) =>
    flagsIn(viewOf(log).world, day(roundDay)).filter(({ code: flag }) => flag === 'reader-stray');

  it('is flagged as a stop, for it may be the chip of the animal in doubt', () => {
    const log = unread();
    scan(log, 'kit-1', 'reader', stray, '13:45');
    expect(flagsOf(log)).toMatchObject([{ severity: 'stop', why: { with: { chip: stray } } }]);
  });

  it('and is not for one of a box or of another animal', () => {
    const log = unread();
    scan(log, 'kit-1', 'reader', ofPack, '13:45');
    scan(log, 'kit-1', 'reader', neighbours, '13:46');
    expect(flagsOf(log)).toEqual([]);
  });
});
