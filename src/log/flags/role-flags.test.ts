import { describe, expect, it } from 'vitest';
import { at, day, testLog } from '../../../test/support/log.js';
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

  it('is none where somebody of another role is described first, or leaves', () => {
    const log = withSol();
    described(log, 'pat', 'volunteer', '09:00');
    described(log, 'tom', 'volunteer', '09:10', 'sol', { active: false });
    expect(flags(log)).toEqual([]);
  });
});

describe('who comes to the medical team and leaves it (Verifies: LOG-R183)', () => {
  const stop = { severity: 'stop', closedBy: 'medical', by: 'sol', code: 'role-changed' };

  it('is a stop where somebody new is put on it by another than the team, whom that does not let close it', () => {
    const log = withSol();
    const lamp = glow(log);
    const made = described(log, 'pat', 'medical', '09:00');
    answer(log, lamp, 'pat', '09:10');
    const key = `role-changed:${made.id}`;
    answer(log, key, 'pat', '09:15');
    answer(log, key, 'sol', '09:20');
    expect(flags(log)).toMatchObject([{ ...stop, about: made.id, state: 'taken' }]);
    expect(flags(log)[0]?.why).toMatchObject({
      say: 'flag.role-changed.joined',
      with: { person: { person: 'pat' }, by: { person: 'sol' }, count: 2 },
    });
    answer(log, key, 'mara', '09:30');
    expect(flags(log)).toMatchObject([{ state: 'answered' }]);
  });

  it('is told although it is taken back, written as of an earlier day, or the team had been sent away before', () => {
    const log = withSol();
    const made = described(log, 'pat', 'medical', '09:00');
    log.one('record-withdrawn', 'person:pat', { reason: 'A slip.' }, when('09:05'), made.id, { by: 'sol' });
    expect(flags(log).map(({ about }) => about)).toContain(made.id);
    const early = withSol();
    const person = { person: 'pat' as never, role: 'medical' } as const;
    early.one('person-described', 'person:pat', person, at('2025-01-01'), undefined, {
      by: 'sol',
      recordedAt: when('09:00'),
    });
    expect(flags(early)).toMatchObject([stop]);
    const alone = withSol();
    described(alone, 'mara', 'medical', '09:00', 'sol', { active: false });
    described(alone, 'pat', 'medical', '09:10');
    expect(flags(alone)).toMatchObject([stop, stop]);
  });

  it('is a stop where one of the team is said to be gone, and to be back', () => {
    const log = withSol();
    const gone = described(log, 'mara', 'medical', '09:00', 'sol', { active: false });
    expect(flags(log)).toMatchObject([{ ...stop, about: gone.id, why: { say: 'flag.role-changed.left' } }]);
    const back = described(log, 'mara', 'medical', '09:10');
    expect(flags(log)).toMatchObject([{ ...stop, about: back.id, why: { say: 'flag.role-changed.returned' } }, stop]);
    // Whoever was brought back says so of their being gone, and not of their being back.
    answer(log, `role-changed:${back.id}`, 'mara', '09:20');
    answer(log, `role-changed:${gone.id}`, 'mara', '09:20');
    expect(flags(log).map(({ about, state }) => [about, state])).toEqual([
      [back.id, 'taken'],
      [gone.id, 'answered'],
    ]);
  });

  it('is a stop where the description of one of the team is withdrawn', () => {
    const log = withSol();
    const made = described(log, 'pat', 'medical', '09:00', 'mara');
    const taken = log.one('record-withdrawn', 'person:pat', { reason: 'x' }, when('09:05'), made.id, { by: 'tom' });
    expect(flags(log)).toMatchObject([{ ...stop, by: 'tom', about: taken.id }]);
  });

  it.each<[string, (log: Log) => void]>([
    ['the team itself puts somebody on it', (log) => described(log, 'pat', 'medical', '09:00', 'mara')],
    [
      'the team says that one is gone and back',
      (log) => {
        described(log, 'pat', 'medical', '09:00', 'mara');
        described(log, 'pat', 'medical', '09:10', 'mara', { active: false });
        described(log, 'pat', 'medical', '09:20', 'mara');
      },
    ],
    ['one of them leaves', (log) => described(log, 'mara', 'medical', '09:00', 'mara', { active: false })],
    ['the same is said once more', (log) => described(log, 'mara', 'medical', '09:00')],
  ])('is none where %s', (_, act) => {
    const log = withSol();
    act(log);
    expect(flags(log)).toEqual([]);
  });

  it('is none of the first of a new shelter, and of those described with them', () => {
    const log = testLog();
    for (const person of ['vera', 'mara', 'pat']) described(log as Log, person, 'medical', '06:00', 'sol');
    expect(flags(log as Log)).toEqual([]);
    described(log as Log, 'rosa', 'medical', '06:01', 'sol');
    expect(flags(log as Log)).toMatchObject([stop]);
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
