import { describe, expect, it } from 'vitest';
import { at, day } from '../../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../../test/support/round-log.js';
import { effective } from '../../../log/views/effective.js';
import { checkPack, chipState } from './chip-state.js';

const code = '900000000000303';
type Log = ReturnType<typeof roundLog>;

const scan = (log: Log, occasion: 'before' | 'pack' | 'after', found: string | null, time: string) =>
  log.one(
    'chip-scanned',
    'animal:kit-1',
    {
      target: occasion === 'pack' ? 'pack' : 'animal',
      occasion,
      found: found === null ? null : { raw: found, code: found, class: 'iso' },
      round: roundId as never,
    },
    at(roundDay, time),
  );
const implant = (log: Log, time: string) =>
  log.one(
    'chip-implanted',
    'animal:kit-1',
    { code, site: 'midline', packScan: null, round: roundId as never },
    at(roundDay, time),
  );
const stateOf = (log: Log) => chipState(effective(log.records.filter((one) => one.subject === 'animal:kit-1')));

describe('three scans around an implant (Verifies: ROUND-R9)', () => {
  it('goes from the empty animal over the pack to the animal with its chip', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    expect(stateOf(log).is).toBe('scan-before');
    scan(log, 'before', null, '13:40');
    expect(stateOf(log).is).toBe('scan-pack');
    scan(log, 'pack', code, '13:41');
    expect(stateOf(log)).toMatchObject({ is: 'implant', code });
    implant(log, '13:42');
    expect(stateOf(log)).toMatchObject({ is: 'scan-after', code });
    scan(log, 'after', '900 000 000 000 303', '13:43');
    expect(stateOf(log)).toEqual({ is: 'same', code });
  });

  it('stops at a chip that is there already', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'before', '985000000000001', '13:40');
    scan(log, 'pack', code, '13:41');
    expect(stateOf(log)).toEqual({ is: 'found', code: '985000000000001' });
  });

  it.each([
    ['another number afterwards', '900000000000404', { is: 'differs', code, found: '900000000000404' }],
    ['nothing to be read afterwards', null, { is: 'unreadable', code }],
  ])('is not done with %s', (_, after, state) => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'before', null, '13:40');
    scan(log, 'pack', code, '13:41');
    implant(log, '13:42');
    scan(log, 'after', after, '13:43');
    expect(stateOf(log)).toEqual(state);
  });

  it('does not take a pack scanned before the animal was', () => {
    const log = roundLog({ 'kit-1': ['chip'] });
    scan(log, 'pack', code, '13:39');
    scan(log, 'before', null, '13:40');
    expect(stateOf(log).is).toBe('scan-pack');
  });
});

describe('a chip in its pack (Verifies: ROUND-R10)', () => {
  const box = (withdrawn: boolean) => {
    const log = roundLog({ 'kit-1': ['chip'], 'kit-2': [] });
    log.one(
      'lot-received',
      'lot:chips-1',
      { of: { is: 'chips', codes: [code, '900000000000304'] }, lotText: 'C1', expires: day('2030-01-01'), pieces: 2 },
      at('2026-03-01', '09:00'),
    );
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
    const { world } = viewOf(log);
    return (number: string) => checkPack(number, world.animals.values(), world.shelter.lots.values());
  };

  it('comes with its box, or is said to be on no list', () => {
    expect(box(false)(code)).toEqual({ ok: true, value: { lot: 'chips-1', listed: true } });
    expect(box(false)('900000000000999')).toEqual({ ok: true, value: { lot: null, listed: false } });
  });

  it('is refused when it is in another animal, or its box was withdrawn', () => {
    expect(box(false)('900000000000304')).toMatchObject({ ok: false, why: { say: 'round.chip.taken' } });
    expect(box(true)(code)).toMatchObject({ ok: false, why: { say: 'round.chip.withdrawn' } });
  });
});
