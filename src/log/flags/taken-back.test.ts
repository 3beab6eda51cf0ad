import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';
import { apartFlags } from './open-things.js';

type Log = ReturnType<typeof ward>;
const reactive = { control: 'seen', antigen: 'seen', invalid: 'not-seen' } as const;
const negative = { ...reactive, antigen: 'not-seen' } as const;
const today = day('2026-03-11');

interface Told {
  readonly seen?: Record<string, 'seen' | 'faint' | 'not-seen'>;
  readonly readAt?: string;
  readonly conjugateLot?: string;
  readonly untimed?: boolean;
  readonly run?: string;
  readonly hour?: string;
}

/** A test of Pip: begun on the hour, read at a minute of it. */
function tested(log: Log, told: Told = {}) {
  const { seen = reactive, readAt = '08:30', conjugateLot = 'KIT-A', untimed = false, hour = '10' } = told;
  const run = { run: told.run ?? 'run-1', schedule: 'felv-test' };
  const begun = { ...run, kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot, outOfColdAt: null };
  const drawn = { ...run, volume_ul: 120, usable: true, sample: 'whole-blood' };
  log.one('sample-drawn', 'animal:pip', drawn as never, at('2026-03-10', '09:50'));
  const start = log.one('test-started', 'animal:pip', { ...begun, untimed } as never, at('2026-03-10', `${hour}:00`));
  const body = { run: run.run as never, seen, untimed };
  return { start, read: log.one('test-read', 'animal:pip', body, `2026-03-10T${hour}:${readAt}.000Z`) };
}

function withPip(): Log {
  const log = ward();
  log.take('pip', '2026-01-20');
  return log;
}
function found(log: Log) {
  const world = buildWorld(log.records);
  const pip = world.animals.get(animalId('pip'));
  const apart = pip === undefined ? [] : apartFlags(world, pip, today);
  return { apart: apart.map(({ code }) => code), flags: flagsIn(world, today), first: apart[0] };
}
const answered = (log: Log, by: string) => {
  const key = found(log).first?.key ?? '';
  const word = { flag: key, answer: 'done' as const, note: 'Looked at it.' };
  log.one('flag-answered', `flag:${key}`, word, at('2026-03-10', '18:00'), undefined, { by });
};
const moved = (log: Log, time: string) =>
  log.one('animal-moved', 'animal:pip', { section: 'kittens-one' as never, kennel: '1' }, at('2026-03-10', time));

describe('a mark on a test that does not count (Verifies: TEST-R61)', () => {
  it.each([
    ['lots that do not belong together', { conjugateLot: 'KIT-B' }, 'due.reason.test-lots-differ'],
    ['no times', { untimed: true }, 'due.reason.test-no-times'],
    ['read too late', { readAt: '20:00' }, 'due.reason.test-read-late'],
    ['read too early', { readAt: '03:00' }, 'due.reason.test-read-early'],
    ['faint', { readAt: '20:00', seen: { ...reactive, antigen: 'faint' as const } }, 'flag.mark-not-counted.faint'],
  ])('is named and keeps the animal apart: %s', (_, told, words) => {
    const log = withPip();
    tested(log, told);
    const { apart, first } = found(log);
    expect(apart).toEqual(['mark-not-counted']);
    expect(first).toMatchObject({ severity: 'stop', for: ['supervisor', 'medical', 'caregiver'] });
    expect(JSON.stringify(first?.why)).toContain(words);
    moved(log, '12:00');
    expect(found(log).flags.some(({ code }) => code === 'moved-while-apart')).toBe(true);
  });

  it('holds until a later test that counts, or the medical team’s answer and nobody else’s', () => {
    const log = withPip();
    tested(log, { readAt: '20:00' });
    answered(log, 'ines');
    expect(found(log).apart).toEqual(['mark-not-counted']);
    const repeated = withPip();
    tested(repeated, { readAt: '20:00' });
    tested(repeated, { seen: negative, run: 'run-2', hour: '14' });
    expect(found(repeated).apart).toEqual([]);
    moved(repeated, '15:00');
    expect(found(repeated).flags.some(({ code }) => code === 'moved-while-apart')).toBe(false);
    answered(log, 'mara');
    expect(found(log).apart).toEqual([]);
  });

  it('a test without the mark, and one that counts, raise no such flag', () => {
    for (const told of [{ seen: negative, readAt: '20:00' }, {}]) {
      const log = withPip();
      tested(log, told);
      expect(found(log).apart).not.toContain('mark-not-counted');
    }
  });
});

describe('a finding that was taken back (Verifies: TEST-R62)', () => {
  const withdrawn = (log: Log, record: { id: unknown }, by: string) =>
    log.one(
      'record-withdrawn',
      'animal:pip',
      { reason: 'never happened' },
      at('2026-03-10', '11:00'),
      record.id as never,
      {
        by,
        recordedAt: at('2026-03-10', '11:00'),
      },
    );

  it('by a volunteer is told to the medical team, and holds until its answer', () => {
    const log = withPip();
    withdrawn(log, tested(log).read, 'tom');
    const { apart, first } = found(log);
    expect(apart).toEqual(['reading-taken-back']);
    expect(first?.for).toContain('medical');
    expect(JSON.stringify(first?.why)).toContain('"person":"tom"');
    moved(log, '12:00');
    expect(found(log).flags.some(({ code }) => code === 'moved-while-apart')).toBe(true);
    answered(log, 'tom');
    expect(found(log).apart).toEqual(['reading-taken-back']);
    answered(log, 'mara');
    expect(found(log).apart).toEqual([]);
  });

  const body = { run: 'run-1' as never, seen: negative };
  it.each<[string, (log: Log) => void]>([
    ['corrected', (log) => log.one('test-read', 'animal:pip', body, at('2026-03-10', '10:09'), tested(log).read.id)],
    [
      'withdrawn after a correction to reactive',
      (log) => {
        const { read } = tested(log, { seen: negative });
        const changed = { run: 'run-1' as never, seen: reactive };
        withdrawn(log, log.one('test-read', 'animal:pip', changed, read.happenedAt, read.id), 'tom');
      },
    ],
  ])('also when it was %s', (_, change) => {
    const log = withPip();
    change(log);
    expect(found(log).apart).toEqual(['reading-taken-back']);
  });

  it('is not taken back by giving the test up afterwards (TEST-R82)', () => {
    const log = withPip();
    tested(log);
    const given = { run: 'run-1' as never, why: 'other', round: null };
    log.one('test-abandoned', 'animal:pip', given as never, at('2026-03-10', '10:30'));
    expect(found(log).apart).toEqual(['reactive']);
  });

  it('is not taken back by another reading of the same kit: the more serious one stands (TEST-R70)', () => {
    const log = withPip();
    tested(log);
    log.one('test-read', 'animal:pip', body, at('2026-03-10', '10:09'));
    expect(found(log).apart).toEqual(['reactive']);
    expect(found(log).flags.map(({ code }) => code)).toContain('readings-differ');
  });

  it('says that a mark is there when the start of its test was withdrawn', () => {
    const log = withPip();
    withdrawn(log, tested(log).start, 'tom');
    expect(found(log).apart).toEqual(['mark-not-counted']);
  });

  it('also of the lamp', () => {
    const log = withPip();
    const glow = { code: 'ringworm-lamp', state: 'present', answer: 'glow', on: day('2026-03-10') } as const;
    withdrawn(log, log.one('observation-noted', 'animal:pip', glow, at('2026-03-10', '10:00')), 'tom');
    expect(found(log).apart).toEqual(['glow-taken-back']);
  });

  it('not by the medical team, not when it still stands, and not one without the mark', () => {
    const log = withPip();
    withdrawn(log, tested(log).read, 'mara');
    expect(found(log).apart).toEqual([]);
    const stands = withPip();
    const faint = { run: 'run-1' as never, seen: { ...reactive, antigen: 'faint' as const } };
    stands.one('test-read', 'animal:pip', faint, at('2026-03-10', '10:09'), tested(stands).read.id);
    expect(found(stands).apart).toEqual(['reactive']);
    const none = withPip();
    withdrawn(none, tested(none, { seen: negative }).read, 'tom');
    expect(found(none).apart).toEqual([]);
  });
});
