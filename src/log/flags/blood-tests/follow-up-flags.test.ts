import { describe, expect, it } from 'vitest';
import { kitRun, reactive } from '../../../../test/support/kit-run.js';
import { at, day } from '../../../../test/support/log.js';

const result = (outcome: 'confirmed' | 'not-confirmed' | 'unclear', on = '2026-03-12') =>
  ({ is: 'result', method: 'another method', outcome, on: day(on) }) as const;
const plan = (on: string) => ({ is: 'plan', what: 'another method', on: day(on) }) as const;
const noon = at('2026-03-12', '12:00');
const mara = { by: 'mara', device: 'desk-mara' };
const today = '2026-03-13';

function reacted() {
  const log = kitRun();
  log.begin();
  log.read('09:00', reactive);
  return log;
}

describe('a result that the desk wrote down on the word of the medical team (Verifies: LOG-R179)', () => {
  it('is told to the medical team, which alone closes that', () => {
    const log = reacted();
    log.follow(result('not-confirmed'), noon, 'mara', { by: 'sol' });
    const { flag } = log.found(today);
    expect(flag('reactive')?.state).toBe('answered');
    expect(flag('follow-up-told')).toMatchObject({ severity: 'attention', for: ['medical'], closedBy: 'medical' });
    expect(flag('follow-up-told')?.why.with).toMatchObject({ by: { person: 'sol' } });
  });

  it('is not by their own hand, nor where it settles nothing, which is told already', () => {
    const own = reacted();
    own.follow(result('confirmed'), noon, 'mara', mara);
    expect(own.found(today).codes).not.toContain('follow-up-told');
    const none = reacted();
    none.follow(result('confirmed'), noon, 'tom', { by: 'sol' });
    expect(none.found(today).codes).not.toContain('follow-up-told');
  });
});

describe('a word about a reactive test that settles nothing (Verifies: TEST-R74)', () => {
  it.each([
    ['a plan on the word of a volunteer', plan('2026-03-20'), 'tom', 'person'],
    ['a plan on the word of nobody known', plan('2026-03-20'), 'nobody', 'person'],
    ['a result on the word of a volunteer', result('not-confirmed'), 'tom', 'person'],
    ['a result of a supervisor', result('confirmed'), 'sol', 'person'],
    ['a result of a day before the reading', result('not-confirmed', '2026-03-09'), 'mara', 'before-reading'],
    ['a result of a day to come', result('not-confirmed', '2030-01-01'), 'mara', 'ahead'],
    ['a plan for a day that nobody waits for', plan('2099-01-01'), 'mara', 'plan-far'],
  ])('is flagged, and the test stays as it was: %s', (_, says, person, why) => {
    for (const by of [{ by: 'sol' }, mara]) {
      const log = reacted();
      log.follow(says, noon, person, by);
      log.toKittens(at('2026-03-12', '13:00'));
      const { apart, flag, codes, due } = log.found(today);
      expect(flag('reactive')?.state).toBe('open');
      expect(apart).toEqual(['reactive']);
      expect(due?.status).toBe('to-confirm');
      expect(codes).toContain('moved-while-apart');
      expect(flag('follow-up-doubtful')).toMatchObject({ severity: 'stop', closedBy: 'medical' });
      expect(JSON.stringify(flag('follow-up-doubtful')?.why)).toContain(`flag.follow-up-doubtful.${why}`);
    }
  });

  it('does not take the place of one in order that came before', () => {
    const log = reacted();
    log.follow(plan('2026-03-20'), noon);
    log.follow(plan('2099-01-01'), at('2026-03-12', '13:00'));
    expect(log.found(today).flag('reactive')?.followUp?.said.with?.['date']).toEqual({ date: '2026-03-20' });
    expect(log.found('2026-03-21').flag('reactive')?.state).toBe('open');
  });

  it('goes by the role that the person had then', () => {
    const log = reacted();
    log.person('vera', 'medical', '2026-02-01');
    log.person('vera', 'volunteer', '2026-03-13');
    log.follow(result('not-confirmed'), noon, 'vera');
    expect(log.found(today).apart).toEqual([]);
    const later = reacted();
    later.person('vera', 'medical', '2026-03-13');
    later.follow(result('not-confirmed'), noon, 'vera');
    expect(later.found(today).apart).toEqual(['reactive']);
  });

  it('half a year ahead is a plan, a day more is not', () => {
    const log = reacted();
    log.follow(plan('2026-09-11'), noon);
    expect(log.found(today).flag('reactive')?.state).toBe('answered');
    const far = reacted();
    far.follow(plan('2026-09-12'), noon);
    expect(far.found(today).flag('reactive')?.state).toBe('open');
  });
});

describe('results of the second method that differ (Verifies: TEST-R75)', () => {
  type Log = ReturnType<typeof kitRun>;
  const one = at('2026-03-12', '13:00');
  const ways: [string, (log: Log) => void][] = [
    ['a later not confirmed', (log) => log.follow(result('not-confirmed'), one)],
    [
      'one that claims to be earlier',
      (log) => log.follow(result('not-confirmed'), at('2026-03-12', '09:00'), 'mara', { by: 'sol', recordedAt: one }),
    ],
    [
      'a correction',
      (log) =>
        log.follow(result('not-confirmed'), noon, 'mara', { by: 'sol', recordedAt: one }, log.records.at(-1)?.id),
    ],
    [
      'the first one withdrawn, and another written',
      (log) => {
        log.one('record-withdrawn', 'animal:pip', { reason: 'wrong' }, one, log.records.at(-1)?.id, { by: 'sol' });
        log.follow(result('not-confirmed'), at('2026-03-12', '14:00'));
      },
    ],
  ];
  it.each(ways)(
    'settle nothing, and are flagged until the medical team’s own hand says what holds: %s',
    (_, change) => {
      const log = reacted();
      log.follow(result('confirmed'), noon, 'mara', mara);
      expect(log.found(today).apart).toEqual([]);
      change(log);
      log.toKittens(at('2026-03-12', '15:00'));
      const { apart, flag, due, codes } = log.found(today);
      expect(flag('results-differ')).toMatchObject({ severity: 'stop', closedBy: 'medical' });
      expect(apart).toEqual(['reactive']);
      expect(due?.because.say).toBe('due.reactive.differs');
      expect(due?.status).toBe('to-confirm');
      expect(codes).toContain('moved-while-apart');
      log.follow(result('not-confirmed'), at('2026-03-12', '16:00'), 'mara', mara);
      const after = log.found(today);
      expect(after.codes).not.toContain('results-differ');
      expect(after.due?.because.say).toBe('due.reactive.not-confirmed');
      expect(after.apart).toEqual([]);
    },
  );

  it('are the same stop where one is corrected into the other, whoever had written it (Verifies: TEST-R80)', () => {
    const hands = [
      ['the supervisor’s own', 'sol', 'sol'],
      ['the veterinarian’s own, by their own hand', 'mara', 'mara'],
      ['the veterinarian’s, by another of the medical team', 'mara', 'nell'],
      ['the veterinarian’s, by the supervisor', 'mara', 'sol'],
    ] as const;
    for (const [, first, second] of hands) {
      const log = reacted();
      log.person('nell', 'medical', '2026-01-03');
      const word = log.follow(result('confirmed'), noon, 'mara', { by: first });
      log.follow(result('not-confirmed'), noon, 'mara', { by: second, recordedAt: one }, word.id);
      const { apart, flag, due } = log.found(today);
      expect(flag('results-differ')).toMatchObject({ severity: 'stop', closedBy: 'medical' });
      expect(apart).toEqual(['reactive']);
      expect(due?.because.say).toBe('due.reactive.differs');
      log.follow(result('confirmed'), at('2026-03-12', '16:00'), 'mara', mara);
      expect(log.found(today).codes).not.toContain('results-differ');
      expect(log.found(today).due?.because.say).toBe('due.reactive.confirmed');
    }
  });

  it('are none where the method alone is put right', () => {
    const log = reacted();
    const word = log.follow(result('confirmed'), noon, 'mara', mara);
    log.follow({ ...result('confirmed'), method: 'a third' }, noon, 'mara', { by: 'sol', recordedAt: one }, word.id);
    expect(log.found(today).codes).not.toContain('results-differ');
    expect(log.found(today).due?.because.with?.['method']).toBe('a third');
  });

  it('are one where its writer withdraws it and writes the other', () => {
    const log = reacted();
    const word = log.follow(result('confirmed'), noon);
    log.one('record-withdrawn', 'animal:pip', { reason: 'wrong' }, one, word.id, { by: 'sol' });
    log.follow(result('not-confirmed'), at('2026-03-12', '14:00'));
    expect(log.found(today).codes).toContain('results-differ');
  });
});

describe('a plan after a result (Verifies: TEST-R81)', () => {
  const later = plan('2026-03-20');
  const one = at('2026-03-12', '13:00');

  it.each(['sol', 'mara'])('leaves the result as it was, whoever writes it: %s', (by) => {
    for (const outcome of ['confirmed', 'not-confirmed'] as const) {
      const log = reacted();
      log.follow(result(outcome), noon, 'mara', mara);
      log.follow(later, one, 'mara', { by });
      expect(log.found(today).due?.because.say).toBe(`due.reactive.${outcome}`);
      expect(log.found('2026-03-25').due?.because.say).toBe(`due.reactive.${outcome}`);
    }
  });

  it('leaves it where it is a correction by others than the medical team, as an unclear result does', () => {
    for (const says of [later, result('unclear')]) {
      const log = reacted();
      const word = log.follow(result('confirmed'), noon, 'mara', mara);
      log.follow(says, noon, 'mara', { by: 'sol', recordedAt: one }, word.id);
      expect(log.found(today).due?.because.say).toBe('due.reactive.confirmed');
    }
  });

  it('is a stop where the medical team’s own hand corrected the result into it', () => {
    const log = reacted();
    const word = log.follow(result('confirmed'), noon, 'mara', mara);
    log.follow(later, noon, 'mara', { ...mara, recordedAt: one }, word.id);
    const { apart, flag, due } = log.found(today);
    expect(flag('results-differ')).toMatchObject({ severity: 'stop', closedBy: 'medical' });
    expect(due?.because.say).toBe('due.reactive.differs');
    expect(apart).toEqual(['reactive']);
    log.follow(result('confirmed'), at('2026-03-12', '16:00'), 'mara', mara);
    expect(log.found(today).due?.because.say).toBe('due.reactive.confirmed');
  });

  it('still holds after an unclear one', () => {
    const log = reacted();
    log.follow(result('unclear'), noon, 'mara', mara);
    log.follow(later, one);
    expect(log.found(today).due?.because.say).toBe('due.reactive.planned');
  });
});
