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

describe('an observation that was taken back (Verifies: LOG-R122)', () => {
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
