import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import { animalFlags } from '../../flags/animal-flags.js';
import type { BodyInput } from '../../kinds/index.js';
import { lotUse } from '../../stock/lots.js';
import { inDeviceOrder } from '../device-order.js';
import { chipCourse, openDifference } from './chip-course.js';
import { chipsInDoubt } from './chip-fold.js';
import { checkPack } from './chip-pack.js';

const code = '900000000000303';
type Log = ReturnType<typeof roundLog>;

const scan = (
  log: Log,
  occasion: BodyInput<'chip-scanned'>['occasion'],
  found: string | null,
  time: string,
  more: Partial<BodyInput<'chip-scanned'>> = {},
) =>
  log.one(
    'chip-scanned',
    'animal:kit-1',
    {
      target: occasion === 'pack' ? 'pack' : occasion === 'reader' ? 'known' : 'animal',
      occasion,
      found: found === null ? null : { raw: found, code: found, class: 'iso' },
      round: roundId as never,
      ...more,
    },
    at(roundDay, time),
  );
const implant = (log: Log, time: string, number = code, lot: string | null = null) =>
  log.one(
    'chip-implanted',
    'animal:kit-1',
    { code: number, site: 'between-shoulder-blades', packScan: null, round: roundId as never, lot: lot as never },
    at(roundDay, time),
  );
const box = (log: Log, ...codes: string[]) =>
  log.one(
    'lot-received',
    'lot:chips-1',
    { of: { is: 'chips', codes }, lotText: 'C1', expires: day('2030-01-01'), pieces: codes.length },
    at('2026-03-01', '09:00'),
  );
const courseOf = (log: Log) => chipCourse(inDeviceOrder(log.records.filter((one) => one.subject === 'animal:kit-1')));
const lineOf = (log: Log) =>
  viewOf(log)
    .stop('kit-1')
    .lines.find((line) => line.schedule === 'chip');
const flagsOn = (log: Log) => {
  const { world, stop } = viewOf(log);
  const records = world.bySubject.get('animal:kit-1') ?? [];
  return animalFlags(stop('kit-1').animal, records, world.shelter, day(roundDay)).map((flag) => flag.code);
};

/** The animal scanned, the pack scanned, the chip in. */
function implanted(): Log {
  const log = roundLog({ 'kit-1': ['chip'] });
  box(log, code, '900000000000304');
  scan(log, 'before', null, '13:40');
  scan(log, 'pack', code, '13:41');
  implant(log, '13:42', code, 'chips-1');
  return log;
}

describe('three scans around an implant (Verifies: ROUND-R9)', () => {
  it('goes from the empty animal over the pack to the animal with its chip', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    expect(courseOf(log).is).toBe('scan-before');
    scan(log, 'before', null, '13:40');
    expect(courseOf(log).is).toBe('scan-pack');
    scan(log, 'pack', code, '13:41');
    expect(courseOf(log)).toMatchObject({ is: 'implant', code });
    implant(log, '13:42');
    expect(courseOf(log)).toMatchObject({ is: 'scan-after', code });
    scan(log, 'after', '900 000 000 000 303', '13:43');
    expect(courseOf(log)).toMatchObject({ is: 'same', code });
  });

  it('goes by the count of the device when its clock is set back', () => {
    const log = implanted();
    scan(log, 'after', code, '13:20');
    expect(courseOf(log).is).toBe('same');
    expect(lineOf(log)).toMatchObject({ state: 'done', abnormal: false });
    expect(viewOf(log).stop('kit-1').animal.chip?.confirmed).toBe(true);
  });

  it('stops at a chip that is there already', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'before', '985000000000001', '13:40');
    scan(log, 'pack', code, '13:41');
    expect(courseOf(log)).toMatchObject({ is: 'found', code: '985000000000001' });
  });

  it('does not take a pack scanned before the animal was', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'pack', code, '13:39');
    scan(log, 'before', null, '13:40');
    expect(courseOf(log).is).toBe('scan-pack');
  });
});

describe('another number after implanting (Verifies: CHIP-R14)', () => {
  const other = '900000000000404';

  it('keeps the line open and stops, until the animal was scanned again', () => {
    const log = implanted();
    scan(log, 'after', other, '13:43');
    expect(courseOf(log)).toMatchObject({ is: 'differs', code, found: other });
    expect(lineOf(log)).toMatchObject({ state: 'part', abnormal: true });
    const { animal, own } = viewOf(log).stop('kit-1');
    expect(openDifference(animal, own)).toMatchObject({ expected: code, found: other });
    expect(flagsOn(log)).toContain('chip-differs');
    scan(log, 'after', code, '13:44');
    expect(lineOf(log)).toMatchObject({ state: 'done', abnormal: false });
  });

  it('or the team leaves both numbers to the desk', () => {
    const log = implanted();
    const read = scan(log, 'after', other, '13:43');
    log.one('chip-scanned', 'animal:kit-1', { ...read.body, leftToDesk: true }, read.happenedAt, read.id);
    expect(lineOf(log)).toMatchObject({ state: 'not-done', reason: 'chip-differs', abnormal: true });
    const { animal, own } = viewOf(log).stop('kit-1');
    expect(openDifference(animal, own)).toBeNull();
    expect(flagsOn(log)).toContain('chip-differs');
  });

  it('or another cat was on the table, and this one has been made sure of again', () => {
    const log = implanted();
    scan(log, 'after', other, '13:43');
    const made = { round: roundId, by: 'marks' as const, compared: ['coat', 'mark'] };
    log.one('animal-identified', 'animal:kit-1', made, at(roundDay, '13:45'));
    expect(courseOf(log)).toMatchObject({ is: 'scan-after', code });
    expect(lineOf(log)?.state).toBe('part');
  });

  it('is a stop at the look for a chip that is on record, too, and never takes its place', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'intake', code, '11:00', { round: null });
    scan(log, 'recheck', other, '13:43');
    const { animal, own } = viewOf(log).stop('kit-1');
    expect(animal.chip?.code).toBe(code);
    expect(openDifference(animal, own)).toMatchObject({ expected: code, found: other });
    expect(flagsOn(log)).toContain('chip-differs');
  });
});

describe('the chip that fell out (Verifies: CHIP-R15)', () => {
  it('is looked for with a reader that reads before it is given up', () => {
    const log = implanted();
    scan(log, 'after', null, '13:43');
    expect(courseOf(log).is).toBe('unreadable');
    scan(log, 'after', null, '13:44');
    expect(courseOf(log).is).toBe('unreadable');
    scan(log, 'reader', null, '13:45');
    expect(courseOf(log).is).toBe('unreadable');
    scan(log, 'reader', '985112006831826', '13:46');
    expect(courseOf(log)).toMatchObject({ is: 'scan-after', again: true });
    expect(lineOf(log)?.state).toBe('part');
    scan(log, 'after', null, '13:47');
    expect(courseOf(log).is).toBe('gone');
    expect(flagsOn(log)).toContain('chip-not-read');
  });

  it('leaves the animal and the count of its box once it is discarded, and a fresh one goes in', () => {
    const log = implanted();
    scan(log, 'after', null, '13:43');
    const first = log.records.find((record) => record.kind === 'chip-implanted');
    const gone = { code, implant: first?.id ?? null, why: 'seen-outside' as const, lot: 'chips-1' as never };
    log.one('chip-discarded', 'animal:kit-1', { ...gone, round: roundId as never }, at(roundDay, '13:44'));
    expect(courseOf(log).is).toBe('scan-pack');
    expect(viewOf(log).stop('kit-1').animal.chip).toBeNull();
    expect(lineOf(log)?.state).toBe('open');
    expect(checkPack(code, viewOf(log).world)).toMatchObject({ ok: false, why: { say: 'round.chip.was-discarded' } });
    expect(lotUse(viewOf(log).world).get('chips-1' as never)?.left).toBe(1);
    scan(log, 'pack', '900000000000304', '13:45');
    implant(log, '13:46', '900000000000304', 'chips-1');
    scan(log, 'after', '900000000000304', '13:47');
    expect(lineOf(log)).toMatchObject({ state: 'done', abnormal: false });
    expect(viewOf(log).stop('kit-1').animal.chip).toMatchObject({ code: '900000000000304', confirmed: true });
    expect(lotUse(viewOf(log).world).get('chips-1' as never)?.left).toBe(0);
    expect(flagsOn(log)).toEqual(expect.arrayContaining(['chip-seen-outside']));
    expect(flagsOn(log)).not.toContain('chip-not-read');
  });

  it('counts one that was dropped before it was in', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    box(log, code, '900000000000304');
    scan(log, 'before', null, '13:40');
    scan(log, 'pack', code, '13:41');
    const gone = { code, implant: null, why: 'dropped' as const, lot: 'chips-1' as never, round: roundId as never };
    log.one('chip-discarded', 'animal:kit-1', gone, at(roundDay, '13:42'));
    expect(courseOf(log).is).toBe('scan-pack');
    expect(lotUse(viewOf(log).world).get('chips-1' as never)?.left).toBe(1);
  });
});

describe('a misread number and a discarded chip (Verifies: CHIP-R30)', () => {
  const misread = '900000000000302';
  const discarded = () => {
    const log = implanted();
    scan(log, 'after', misread, '13:43');
    scan(log, 'after', null, '13:44');
    const implant = log.records.find((record) => record.kind === 'chip-implanted')?.id ?? null;
    const gone = { code, implant, why: 'seen-outside' as const, lot: 'chips-1' as never, round: roundId as never };
    log.one('chip-discarded', 'animal:kit-1', gone, at(roundDay, '13:46'));
    return log;
  };

  it('leave no chip on record, no sentence that it was read, and both numbers on the card', () => {
    const log = discarded();
    const { world, stop } = viewOf(log);
    const { animal } = stop('kit-1');
    expect(animal.chip).toBeNull();
    expect(animal.history.some((event) => event.what === 'chipped')).toBe(false);
    expect(chipsInDoubt(world.bySubject.get('animal:kit-1') ?? [])).toEqual({ discarded: [code], read: [misread] });
  });

  it('and what is read at a later look is found in it all the same', () => {
    const log = discarded();
    scan(log, 'exit', code, '17:00', { round: null });
    expect(viewOf(log).stop('kit-1').animal.chip).toMatchObject({ code });
  });
});

describe('a chip in its pack (Verifies: ROUND-R10)', () => {
  const boxed = (withdrawn: boolean) => {
    const log = roundLog({ 'kit-1': ['chip'], 'kit-2': [] });
    box(log, code, '900000000000304');
    log.one(
      'chip-scanned',
      'animal:kit-2',
      {
        target: 'animal',
        occasion: 'intake',
        found: { raw: '900000000000304', code: '900000000000304', class: 'iso' },
      },
      at('2026-03-01', '11:00'),
    );
    if (withdrawn) log.one('lot-withdrawn', 'lot:chips-1', { why: 'recalled' }, at('2026-03-01', '12:00'));
    return (number: string) => checkPack(number, viewOf(log).world);
  };

  it('comes with its box, or is said to be on no list', () => {
    expect(boxed(false)(code)).toEqual({ ok: true, value: { lot: 'chips-1', listed: true } });
    expect(boxed(false)('900000000000999')).toEqual({ ok: true, value: { lot: null, listed: false } });
  });

  it('is refused when it is in another animal, its box was withdrawn, or it is a test number', () => {
    expect(boxed(false)('900000000000304')).toMatchObject({ ok: false, why: { say: 'round.chip.taken' } });
    expect(boxed(true)(code)).toMatchObject({ ok: false, why: { say: 'round.chip.withdrawn' } });
    expect(boxed(false)('999000000112233')).toMatchObject({ ok: false, why: { say: 'round.chip.test-pack' } });
  });
});

describe('numbers that no animal should carry are flagged (Verifies: CHIP-R16)', () => {
  /** Numbers of facts on chips: ICAR misuse page, ISO 3166, ISO/DIS 11785 Annex A. */
  it.each([
    ['a test number', '999000000112233', '999000000112233'],
    ['no country and no manufacturer', '895112006831826', '895112006831826'],
    ['the animal flag is 0', '000982000001088420', '982000001088420'],
    ['a number known to be double', '900155000101234', '900155000101234'],
    ['an access tag', '0F0368568B', '0F0368568B'],
  ])('%s', (_, raw, number) => {
    const log = roundLog({ 'kit-1': ['chip'] });
    const found = { raw, code: number, class: 'iso' };
    scan(log, 'intake', number, '11:00', { round: null, found });
    scan(log, 'identify', number, '13:40', { found });
    expect(flagsOn(log).filter((one) => one === 'chip-doubtful')).toEqual(['chip-doubtful']);
  });

  it('one from no box is, where there are boxes; one that is in order is not', () => {
    const log = implanted();
    expect(flagsOn(log)).not.toContain('chip-no-box');
    expect(flagsOn(log)).not.toContain('chip-doubtful');
    const stray = roundLog({ 'kit-1': ['chip'] });
    box(stray, '900000000000304');
    implant(stray, '13:42');
    expect(flagsOn(stray)).toContain('chip-no-box');
  });
});
