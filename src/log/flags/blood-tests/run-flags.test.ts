import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kitRun, negative, noControl, reactive } from '../../../../test/support/kit-run.js';
import { at } from '../../../../test/support/log.js';
import type { LogRecord } from '../../record.js';
import { settled } from '../../settled-time.js';

/** As kept by a server: in order, with their places. */
const kept = (records: readonly LogRecord[]): LogRecord[] => records.map((one, index) => ({ ...one, seq: index + 1 }));
const tom = { by: 'tom', device: 'phone-tom' };

describe('a second start under one test (Verifies: TEST-R71)', () => {
  const ways = [
    ['a second later, of the same kit', '00:01', {}],
    ['of another kit', '00:01', { kitType: 'felv-antigen-b' as never }],
    ['of a kit nobody knows', '00:01', { kitType: 'some-kit' as never }],
    ['of another test', '00:01', { schedule: 'fiv-test' as never }],
    ['before the first', '-', {}],
    ['so late that the first reading would be early', '08:00', {}],
  ] as const;
  it.each(ways)('takes nothing from a reactive reading: %s', (_, text, more) => {
    const log = kitRun();
    log.begin();
    log.read('09:00', reactive);
    const recordedAt = at('2026-03-10', '12:00');
    if (text === '-') {
      const body = { ...log.records.find((one) => one.kind === 'test-started')?.body, ...more } as never;
      log.one('test-started', 'animal:pip', body, at('2026-03-10', '09:40'), undefined, { ...tom, recordedAt });
    } else log.begin(text, more, { ...tom, recordedAt });
    log.read('09:00', negative, { ...tom, recordedAt });
    log.toKittens(at('2026-03-10', '13:00'));
    for (const records of [log.records, kept(log.records), kept(log.records).toReversed()]) {
      const { codes, apart, due, flag, runs } = log.found('2026-03-11', records);
      expect(runs[0]).toMatchObject({ result: 'reactive', schedule: 'felv-test' });
      expect(codes).toEqual(
        expect.arrayContaining(['reactive', 'second-start', 'readings-differ', 'moved-while-apart']),
      );
      expect(apart).toContain('reactive');
      expect(due?.status).toBe('to-confirm');
      expect(flag('second-start')).toMatchObject({ severity: 'stop', for: ['supervisor', 'medical'] });
      expect(JSON.stringify(flag('second-start')?.why)).toMatch(/"person":"ines".*"person":"tom"/);
    }
  });

  it('nor from one that the medical team has taken, or that was confirmed', () => {
    const log = kitRun();
    log.begin();
    const read = log.read('09:00', reactive);
    log.one(
      'flag-taken',
      `flag:reactive:${read.id}`,
      { flag: `reactive:${read.id}` },
      at('2026-03-10', '11:00'),
      undefined,
      {
        by: 'mara',
      },
    );
    log.begin('00:01', { kitType: 'felv-antigen-b' as never }, { ...tom, recordedAt: at('2026-03-10', '12:00') });
    log.read('09:00', negative, { ...tom, recordedAt: at('2026-03-10', '12:00') });
    expect(log.found().flag('reactive')?.state).toBe('taken');
    log.follow(
      { is: 'result', method: 'm', outcome: 'confirmed', on: '2026-03-10' as never },
      at('2026-03-10', '15:00'),
    );
    expect(log.found().due?.because.say).toBe('due.reactive.confirmed');
  });

  it('makes no late reading one in time, and leaves a mark on it named', () => {
    const log = kitRun();
    log.begin();
    log.read('20:00', reactive);
    log.begin('11:00', {}, tom);
    log.read('20:30', negative, tom);
    const { codes, apart } = log.found();
    expect(codes).toEqual(expect.arrayContaining(['second-start']));
    // By the second start the mark was seen in time: the graver of the two is what is said.
    expect(apart).toEqual(['reactive']);
    const late = kitRun();
    late.begin();
    late.read('20:00', reactive);
    late.begin('00:01', {}, tom);
    late.read('09:00', negative, tom);
    expect(late.found().apart).toEqual(['mark-not-counted']);
    const plain = kitRun();
    plain.begin();
    plain.read('20:00', negative);
    plain.begin('11:00', {}, tom);
    expect(plain.found().runs[0]?.result).toBe('not-valid');
    expect(plain.found().codes).toContain('second-start');
  });

  it('whatever is added, by whom and with what times, in whatever order it arrives', () => {
    const text = fc.integer({ min: 0, max: 59 }).map((minute) => `${String(minute).padStart(2, '0')}:00`);
    const seen = fc.constantFrom(reactive, negative, noControl, { ...negative, antigen: 'faint' as const });
    const kitType = fc.constantFrom('felv-antigen-a', 'another-kit');
    const conjugateLot = fc.constantFrom('KIT-A', 'KIT-B');
    const added = fc.oneof(
      fc.record({ is: fc.constant('start' as const), text, kitType, conjugateLot, untimed: fc.boolean() }),
      fc.record({ is: fc.constant('read' as const), text, seen }),
    );
    fc.assert(
      fc.property(fc.array(added, { minLength: 1, maxLength: 5 }), fc.boolean(), (all, backwards) => {
        const log = kitRun();
        log.begin();
        log.read('09:00', reactive);
        const by = { ...tom, recordedAt: at('2026-03-10', '12:00') };
        for (const one of all) {
          if (one.is === 'read') log.read(one.text, one.seen, by);
          else {
            const { kitType, conjugateLot, untimed } = one;
            log.begin(one.text, { kitType: kitType as never, conjugateLot, untimed }, by);
          }
        }
        const records = kept(log.records);
        const { runs, apart } = log.found('2026-03-11', backwards ? records.toReversed() : records);
        expect(runs[0]?.result).toBe('reactive');
        expect(apart).toContain('reactive');
      }),
      { numRuns: 60 },
    );
  });

  it('is closed by the medical team’s answer alone, and so are readings that differ', () => {
    const log = kitRun();
    log.begin();
    log.read('09:00', reactive);
    log.begin('00:01', {}, tom);
    log.read('09:10', negative, tom);
    for (const code of ['second-start', 'readings-differ']) {
      const key = log.found().flag(code)?.key ?? '';
      log.answer(key, 'sol', at('2026-03-10', '12:00'));
      expect(log.found().flag(code)?.state).toBe('taken');
      log.answer(key, 'mara', at('2026-03-10', '12:30'));
      expect(log.found().flag(code)?.state).toBe('answered');
    }
    expect(log.found().apart).toEqual(['reactive']);
  });

  it('of readings that differ, reactive is named before anything else (Verifies: TEST-R70)', () => {
    const log = kitRun();
    log.begin();
    log.read('09:00', reactive);
    log.begin('30:00', {}, tom);
    log.read('39:00', negative, tom);
    const { flag, apart } = log.found();
    expect(flag('readings-differ')?.why.with?.['first']).toMatchObject({
      with: { result: { say: 'round.result.reactive' } },
    });
    expect(apart).toContain('reactive');
  });

  it('a test given up before, by the clock, stays reactive when it was read so', () => {
    const log = kitRun();
    log.begin();
    log.read('09:00', reactive);
    const body = { run: 'run-1' as never, why: 'other' as const };
    log.one('test-abandoned', 'animal:pip', body, log.hour('05:00'), undefined, tom);
    expect(log.found().apart).toEqual(['reactive']);
  });
});

describe('a mark on a failed test (Verifies: TEST-R61)', () => {
  it.each([
    ['without a control', noControl],
    ['with the failed-test mark', { ...reactive, invalid: 'seen' as const }],
    ['with a zone that nobody looked at', { antigen: 'seen' as const }],
    ['in a zone that the kit does not have', { ...negative, Antigen: 'seen' as const }],
  ])('is a stop for the medical team: %s', (_, seen) => {
    const log = kitRun();
    log.begin();
    log.read('09:00', seen);
    const { apart, flag } = log.found();
    expect(apart).toEqual(['mark-not-counted']);
    expect(flag('mark-not-counted')).toMatchObject({ severity: 'stop', closedBy: 'medical' });
    expect(JSON.stringify(flag('mark-not-counted')?.why)).toContain('due.reason.test-invalid');
  });

  it('stays named when a reading without it counts, until another kit was read', () => {
    const log = kitRun();
    log.begin();
    log.read('20:00', reactive);
    log.read('09:00', negative, tom);
    expect(log.found().apart).toEqual(['mark-not-counted']);
    log.begin('30:00', { run: 'run-2' as never });
    log.read('39:00', negative, {}, undefined, 'run-2');
    expect(log.found().apart).toEqual([]);
  });
});

describe('a reading in time by what a phone says of its clock alone (Verifies: TEST-R72)', () => {
  const ahead = (record: LogRecord, ahead_ms: number): LogRecord =>
    settled({ ...record, clock: { ahead_ms, measuredAt: at('2026-03-10', '09:59') } } as LogRecord);

  it('is a stop when other records of that phone say otherwise', () => {
    const log = kitRun();
    log.begin();
    const late = log.read('17:30', negative);
    const records = log.records.map((one) => (one === late ? ahead(one, 500_000) : one));
    const { flag, runs } = log.found('2026-03-11', records);
    expect(runs[0]?.result).toBe('negative');
    expect(flag('clock-decides')).toMatchObject({
      severity: 'stop',
      closedBy: 'medical',
      why: { with: { minutes: 8 } },
    });
  });

  it('needs attention when nothing contradicts it, and nothing when the times as written say the same', () => {
    const log = kitRun();
    log.begin();
    const late = log.read('17:30', negative, { device: 'phone-b' });
    const known = log.records.map((one) => (one === late ? ahead(one, 500_000) : one));
    expect(log.found('2026-03-11', known).flag('clock-decides')?.severity).toBe('attention');
    const intime = kitRun();
    intime.begin();
    const read = intime.read('09:00', negative, { device: 'phone-b' });
    const same = intime.records.map((one) => (one === read ? ahead(one, 30_000) : one));
    expect(intime.found('2026-03-11', same).flag('clock-decides')).toBeUndefined();
  });
});

describe('a test that was given up after it was reactive (Verifies: TEST-R82)', () => {
  it('is the same stop whatever came in first', () => {
    const story = (first: 'read' | 'given up') => {
      const log = kitRun();
      log.begin();
      const read = () => log.read('09:00', reactive, { by: 'tom', recordedAt: at('2026-03-10', '12:00') });
      if (first === 'read') read();
      log.one('test-abandoned', 'animal:pip', { run: 'run-1' as never, why: 'other' }, log.hour('16:40'));
      if (first !== 'read') read();
      return log;
    };
    for (const first of ['read', 'given up'] as const) {
      const { codes, apart, due, runs } = story(first).found();
      expect(runs[0]?.result).toBe('reactive');
      expect(codes).toContain('reactive');
      expect(apart).toContain('reactive');
      expect(due?.status).toBe('to-confirm');
    }
  });
});

describe('a reactive reading that is moved to another kit (Verifies: TEST-R83)', () => {
  it('stays one of the kit that it was read on', () => {
    const log = kitRun();
    log.begin();
    const read = log.read('09:00', reactive);
    log.begin('10:00', { run: 'run-2' as never });
    log.read('19:00', negative, {}, undefined, 'run-2');
    log.read('19:00', negative, { ...tom, recordedAt: at('2026-03-10', '12:00') }, read.id, 'run-2');
    const { codes, apart, due } = log.found();
    expect(codes).toContain('reactive');
    expect(apart).toContain('reactive');
    expect(due?.status).toBe('to-confirm');
  });

  it('and a negative one goes where it is put', () => {
    const log = kitRun();
    log.begin();
    const read = log.read('09:00', negative);
    log.begin('00:30', { run: 'run-2' as never });
    log.read('09:00', negative, tom, read.id, 'run-2');
    expect(log.found().runs.map(({ result }) => result)).toEqual(['running', 'negative']);
  });
});

describe('the kit that a test was made with (Verifies: TEST-R84)', () => {
  it.each([
    ['a lot of something else', { lot: 'worm-a' as never }, 'kit-lot-not-kit'],
    ['a lot that nobody received', { lot: 'no-such' as never }, 'kit-lot-not-kit'],
    ['out of the cold after it was started', { outOfColdAt: '2026-03-10T10:30:00.000Z' }, 'kit-not-warm'],
    ['out of the cold for a minute', { outOfColdAt: '2026-03-10T09:59:00.000Z' }, 'kit-not-warm'],
    ['out of the cold at no known time', { outOfColdAt: null }, 'kit-cold-unknown'],
  ])('needs attention where it was %s', (_, more, code) => {
    const log = kitRun();
    log.begin('00:00', more);
    expect(log.found().flag(code)).toMatchObject({ severity: 'attention', for: ['supervisor', 'medical'] });
  });

  it('needs none where it was warm and of a box here', () => {
    const log = kitRun();
    log.begin('00:00', { outOfColdAt: '2026-03-10T09:15:00.000Z' });
    expect(log.found().codes.filter((code) => code.startsWith('kit-'))).toEqual([]);
  });
});
