import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const today = day('2026-03-10');
const when = (time: string): string => at('2026-03-10', time);

function withSol(): Log {
  const log = ward();
  log.one('person-described', 'person:sol', { person: 'sol' as never, role: 'supervisor' }, at('2026-01-01'));
  log.take('pip', '2026-01-20');
  return log;
}
const described = (log: Log, person: string, role: string, time: string, by = 'sol', more: object = {}) =>
  log.one('person-described', `person:${person}`, { person, role, ...more } as never, when(time), undefined, { by });
const flags = (log: Log, code = 'role-changed') =>
  flagsIn(buildWorld(log.records), today).filter((one) => one.code === code);
const answer = (log: Log, flag: string, by: string, time: string) => {
  const word = { flag, answer: 'explained', note: 'Looked at it.' } as const;
  log.one('flag-answered', `flag:${flag}`, word, when(time), undefined, { by });
};
/** What the lamp showed on Pip; only the medical team answers it. */
function glow(log: Log): string {
  const body = { code: 'ringworm-lamp', state: 'present', answer: 'glow', on: today } as const;
  return `lamp-glow:${log.one('observation-noted', 'animal:pip', body, when('08:00')).id}`;
}

describe('a change of role (Verifies: LOG-R176)', () => {
  it('is a stop where it makes somebody of the medical team, told with who made it and what was answered', () => {
    const log = withSol();
    const lamp = glow(log);
    const made = described(log, 'tom', 'medical', '09:00');
    answer(log, lamp, 'tom', '09:10');
    described(log, 'tom', 'volunteer', '09:20');
    const [back, first] = flags(log).sort((a, b) => (a.raisedAt > b.raisedAt ? -1 : 1));
    expect(first).toMatchObject({ severity: 'stop', about: made.id, for: ['supervisor', 'medical'], by: 'sol' });
    expect(first?.why).toMatchObject({
      say: 'flag.role-changed.until',
      with: { person: { person: 'tom' }, by: { person: 'sol' }, count: 1 },
    });
    expect(back).toMatchObject({ severity: 'attention', why: { say: 'flag.role-changed', with: { count: 0 } } });
  });

  it('stays told when it is taken back', () => {
    const log = withSol();
    const made = described(log, 'tom', 'medical', '09:00');
    log.one('record-withdrawn', 'person:tom', { reason: 'A slip.' }, when('09:05'), made.id, { by: 'sol' });
    expect(flags(log).map(({ about, severity }) => [about, severity])).toContainEqual([made.id, 'stop']);
    expect(flags(log)).toHaveLength(2);
  });

  it('is closed neither by whoever has the role nor by the supervisor who gave it', () => {
    const log = withSol();
    const made = described(log, 'tom', 'medical', '09:00');
    const key = `role-changed:${made.id}`;
    answer(log, key, 'tom', '09:10');
    answer(log, key, 'sol', '09:20');
    expect(flags(log)).toMatchObject([{ state: 'taken' }]);
    answer(log, key, 'mara', '09:30');
    expect(flags(log)).toMatchObject([{ state: 'answered' }]);
  });

  it('of one’s own role is a stop, by the medical team of another’s needs attention', () => {
    const log = withSol();
    described(log, 'sol', 'volunteer', '09:00');
    described(log, 'tom', 'medical', '09:10', 'mara');
    expect(flags(log).map(({ severity }) => severity)).toEqual(['stop', 'attention']);
  });

  it('is none where somebody is described first, or leaves', () => {
    const log = withSol();
    described(log, 'pat', 'medical', '09:00');
    described(log, 'tom', 'volunteer', '09:10', 'sol', { active: false });
    expect(flags(log)).toEqual([]);
  });
});

describe('somebody who no longer works here (Verifies: LOG-R177)', () => {
  it('is not of the medical team any more; what they said before stands', () => {
    const log = withSol();
    const lamp = glow(log);
    described(log, 'mara', 'medical', '09:00', 'sol', { active: false });
    answer(log, lamp, 'mara', '10:00');
    expect(flags(log, 'lamp-glow')).toMatchObject([{ state: 'taken' }]);
    const before = withSol();
    const other = glow(before);
    answer(before, other, 'mara', '08:30');
    described(before, 'mara', 'medical', '09:00', 'sol', { active: false });
    expect(flags(before, 'lamp-glow')).toMatchObject([{ state: 'answered' }]);
  });

  it('ends nothing that the medical team saw', () => {
    const log = withSol();
    const noted = (state: 'present' | 'absent', by: string, time: string) =>
      log.one('observation-noted', 'animal:pip', { code: 'fever', state, on: today }, when(time), undefined, { by });
    log.one('person-described', 'person:vic', { person: 'vic' as never, role: 'medical' }, at('2026-01-01'));
    noted('present', 'mara', '08:00');
    described(log, 'vic', 'medical', '09:00', 'sol', { active: false });
    noted('absent', 'vic', '10:00');
    expect(flags(log, 'guard-lifted')).toHaveLength(1);
  });
});
