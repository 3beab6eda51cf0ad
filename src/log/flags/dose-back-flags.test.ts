import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;

function withUna(): Log {
  const log = ward();
  log.take('una', '2024-01-20', { sex: 'female', arrivedOn: day('2026-03-01') });
  return log;
}
function given(log: Log, by: string, when: string, more: object = {}, corrects?: string) {
  const vaccine = { schedule: 'core-vaccine', product: 'core-vaccine-live-1ml', volume_ul: 1000 };
  const body = { ...vaccine, lot: 'vacc-a', route: 'under the skin', planned_ul: 1000, ...more };
  return log.one('treatment-given', 'animal:una', body as never, when, corrects as never, { by });
}
const withdrawn = (log: Log, by: string, when: string, dose: { id: string }) =>
  log.one('record-withdrawn', 'animal:una', { reason: 'A slip.' }, when, dose.id as never, { by });
const flags = (log: Log) =>
  flagsIn(buildWorld(log.records), day('2026-03-20')).filter(({ code }) =>
    /^dose-taken|^given-(twice|early)/.test(code),
  );
const codes = (log: Log) => flags(log).map(({ code }) => code);

describe('a dose that somebody else takes back (Verifies: LOG-R164)', () => {
  const ten = at('2026-03-10', '10:00');
  const eleven = at('2026-03-10', '11:00');

  it('is told to the desk', () => {
    const log = withUna();
    const dose = given(log, 'ines', ten);
    withdrawn(log, 'tom', eleven, dose);
    expect(flags(log)).toMatchObject([{ code: 'dose-taken-back', severity: 'attention', about: dose.id, by: 'tom' }]);
  });

  it.each([
    ['said not to have been taken', { outcome: 'not-taken' }],
    ['made into another product', { product: 'pyrantel-50', schedule: 'worming' }],
  ])('also where it is %s', (_, more) => {
    const log = withUna();
    given(log, 'tom', ten, more, given(log, 'ines', ten).id);
    expect(codes(log)).toContain('dose-taken-back');
  });

  it('and is named when it is given again on that day or too soon', () => {
    const log = withUna();
    withdrawn(log, 'tom', eleven, given(log, 'ines', ten));
    given(log, 'tom', at('2026-03-10', '12:00'));
    expect(codes(log)).toEqual(expect.arrayContaining(['dose-taken-back', 'given-twice']));
    const later = withUna();
    withdrawn(later, 'tom', eleven, given(later, 'ines', ten));
    given(later, 'tom', at('2026-03-12', '12:00'));
    expect(codes(later)).toEqual(expect.arrayContaining(['dose-taken-back', 'given-early']));
  });

  it('also by the hand that wrote it, days later, with what is given again after it', () => {
    const log = withUna();
    withdrawn(log, 'ines', at('2026-03-14', '10:00'), given(log, 'ines', ten));
    given(log, 'ines', at('2026-03-14', '10:05'));
    expect(codes(log)).toEqual(expect.arrayContaining(['dose-taken-back', 'given-early']));
  });

  it('and what one takes back oneself, or puts right in another way, is not told', () => {
    const log = withUna();
    withdrawn(log, 'ines', eleven, given(log, 'ines', ten));
    given(log, 'ines', at('2026-03-10', '12:00'));
    expect(codes(log)).toEqual([]);
    const other = withUna();
    given(other, 'tom', ten, { site: 'left' }, given(other, 'ines', ten).id);
    expect(codes(other)).toEqual([]);
  });
});
