import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import type { BodyInput } from '../kinds/index.js';
import { buildWorld, dueIn } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const today = day('2026-03-10');

/** Una, a grown queen; Cara fosters and Sol is at the desk. */
function withUna(): Log {
  const log = ward();
  for (const [person, role] of [
    ['cara', 'caregiver'],
    ['sol', 'supervisor'],
  ]) {
    log.one('person-described', `person:${person}`, { person, role } as never, at('2026-01-01'));
  }
  log.take('una', '2024-01-20', { sex: 'female', arrivedOn: day('2026-03-01') });
  return log;
}
type Noted = Partial<BodyInput<'observation-noted'>>;
const noted = (log: Log, by: string, on: string, more: Noted = {}) =>
  log.one(
    'observation-noted',
    'animal:una',
    { code: 'pregnant', state: 'present', on: day(on), ...more },
    at(on),
    undefined,
    {
      by,
    },
  );
const until = (text: string) => ({ until: day(text) });
const placed = (log: Log, by: string, more: Partial<BodyInput<'hold-placed'>> = {}) => {
  const hold = {
    schedules: 'all' as const,
    code: 'veterinarian',
    from: day('2026-03-05'),
    until: null,
    owner: 'mara' as never,
    note: 'Surgery.',
  };
  return log.one('hold-placed', 'animal:una', { ...hold, ...more }, at('2026-03-05'), undefined, { by });
};
const flags = (log: Log) =>
  flagsIn(buildWorld(log.records), today).filter(({ code }) => /^(guard|hold|ends)-/.test(code));
function vaccine(log: Log): string | undefined {
  const world = buildWorld(log.records);
  const animal = world.animals.get(animalId('una'));
  return animal && dueIn(world, animal, today).find(({ schedule }) => schedule === 'core-vaccine')?.status;
}

describe('what guards an animal stands for as long as the medical team said (Verifies: LOG-R151)', () => {
  it('though another sees it again and gives it less, which is a stop', () => {
    const log = withUna();
    expect(vaccine(log)).toMatch(/due/);
    noted(log, 'mara', '2026-03-05', until('2027-01-20'));
    noted(log, 'cara', '2026-03-06', until('2026-03-09'));
    expect(vaccine(log)).toBe('on-hold');
    expect(flags(log)).toMatchObject([{ code: 'guard-shortened', severity: 'stop', by: 'cara', closedBy: 'medical' }]);
  });

  it.each([
    ['the medical team itself gives it less', 'mara', until('2026-03-09'), /due/],
    ['nothing is said of an end', 'cara', {}, /on-hold/],
    ['it is to last longer', 'cara', until('2027-02-20'), /on-hold/],
    ['they themselves say it is over', 'mara', { state: 'absent' as const }, /due/],
  ])('and where %s, nothing is told', (_, by, more, status) => {
    const log = withUna();
    noted(log, 'mara', '2026-03-05', until('2027-01-20'));
    noted(log, by, '2026-03-06', more);
    expect(vaccine(log)).toMatch(status);
    expect(flags(log)).toEqual([]);
  });

  it('and of two who are not of it the last one counts', () => {
    const log = withUna();
    noted(log, 'cara', '2026-03-05', until('2027-01-20'));
    noted(log, 'sol', '2026-03-06', until('2026-03-09'));
    expect([vaccine(log), flags(log)]).toEqual([expect.stringMatching(/due/), []]);
  });

  it('what ends before it begins holds all the same, and is a stop', () => {
    const log = withUna();
    noted(log, 'mara', '2026-03-05', until('2020-01-20'));
    expect(vaccine(log)).toBe('on-hold');
    expect(flags(log)).toMatchObject([{ code: 'ends-before', severity: 'stop' }]);
    const other = withUna();
    placed(other, 'mara', until('2020-01-20'));
    expect([vaccine(other), flags(other).map(({ code }) => code)]).toEqual(['on-hold', ['ends-before']]);
  });
});

describe('what the medical team saw is over when they, or whoever noted it, say so (Verifies: LOG-R162)', () => {
  const over = { state: 'absent' as const };

  it('not when another sees it no more: it stands, and that is a stop', () => {
    const log = withUna();
    const seen = noted(log, 'mara', '2026-03-05', until('2027-01-20'));
    noted(log, 'cara', '2026-03-06', over);
    expect(vaccine(log)).toBe('on-hold');
    expect(flags(log)).toMatchObject([
      { code: 'guard-lifted', severity: 'stop', by: 'cara', about: seen.id, closedBy: 'medical' },
    ]);
    noted(log, 'sol', '2026-03-07', until('2026-03-08'));
    expect(vaccine(log)).toBe('on-hold');
    expect(flags(log).map(({ code }) => code)).toEqual(expect.arrayContaining(['guard-lifted', 'guard-shortened']));
    noted(log, 'mara', '2026-03-08', over);
    expect(vaccine(log)).toMatch(/due/);
  });

  it.each([
    ['whoever noted it says so, of another role by then', 'mara', '2027-01-20', '2026-03-06'],
    ['its time was over by then', 'cara', '2026-03-06', '2026-03-08'],
  ])('and nothing is told where %s', (_, by, end, on) => {
    const log = withUna();
    noted(log, 'mara', '2026-03-04', until(end));
    log.one('person-described', 'person:mara', { person: 'mara', role: 'volunteer' } as never, at('2026-03-05'));
    noted(log, by, on, over);
    expect([vaccine(log), flags(log)]).toEqual([expect.stringMatching(/due/), []]);
  });

  it('and what others noted is over when anybody says so', () => {
    const log = withUna();
    noted(log, 'cara', '2026-03-05');
    noted(log, 'sol', '2026-03-06', over);
    expect([vaccine(log), flags(log)]).toEqual([expect.stringMatching(/due/), []]);
  });
});

describe('what is noted for a day to come (Verifies: LOG-R163)', () => {
  const ahead = (log: Log) => flagsIn(buildWorld(log.records), today).filter(({ code }) => code === 'observed-ahead');

  it('holds from the day on which it was noted, and is a stop', () => {
    const log = withUna();
    noted(log, 'cara', '2026-03-09', { on: day('2026-05-09') });
    expect(vaccine(log)).toBe('on-hold');
    expect(ahead(log)).toMatchObject([{ severity: 'stop', for: ['supervisor', 'medical'] }]);
  });

  it('ends nothing before that day', () => {
    const log = withUna();
    noted(log, 'mara', '2026-03-05');
    noted(log, 'mara', '2026-03-09', { state: 'absent', on: day('2026-05-09') });
    expect(vaccine(log)).toBe('on-hold');
    expect(ahead(log)).toHaveLength(1);
  });

  it('and what is of its own day or an earlier one is not told', () => {
    const log = withUna();
    noted(log, 'cara', '2026-03-09');
    noted(log, 'cara', '2026-03-09', { on: day('2026-03-02') });
    expect(ahead(log)).toEqual([]);
  });
});

describe('a hold of the medical team that another ends is a stop for them (Verifies: LOG-R152)', () => {
  const lifted = (log: Log, hold: string, by: string) =>
    log.one('hold-lifted', 'animal:una', { hold: hold as never }, at('2026-03-08'), undefined, { by });
  const withdrawn = (log: Log, id: string, by: string) =>
    log.one('record-withdrawn', 'animal:una', { reason: 'A slip.' }, at('2026-03-08'), id as never, { by });

  it.each([
    ['lifted', lifted],
    ['withdrawn', withdrawn],
  ])('%s', (_, end) => {
    const log = withUna();
    end(log, placed(log, 'mara').id, 'sol');
    expect(flags(log)).toMatchObject([
      { code: 'hold-lifted-by-other', severity: 'stop', by: 'sol', closedBy: 'medical' },
    ]);
    const own = withUna();
    end(own, placed(own, 'mara').id, 'mara');
    end(own, placed(own, 'sol').id, 'sol');
    expect(flags(own)).toEqual([]);
  });

  it('put otherwise to last less, and not where it was over by then', () => {
    const log = withUna();
    const { id, body } = placed(log, 'mara');
    const less = { ...body, until: day('2026-03-07') };
    log.one('hold-placed', 'animal:una', less, at('2026-03-08'), id, { by: 'sol' });
    expect(flags(log)).toHaveLength(1);
    const over = withUna();
    lifted(over, placed(over, 'mara', until('2026-03-06')).id, 'sol');
    expect(flags(over)).toEqual([]);
  });
});
