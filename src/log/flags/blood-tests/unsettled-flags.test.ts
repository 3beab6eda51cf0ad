import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import type { BodyInput } from '../../kinds/index.js';
import { buildWorld, dueIn } from '../../views/world.js';
import { flagsIn } from '../flags.js';
import { apartFlags, openThings } from '../open-things.js';

type Log = ReturnType<typeof ward>;
const run = { run: 'run-1', schedule: 'felv-test' } as never;

/** Pip's test, begun at 10:00 and read at a time; nothing is read when the time is null. */
function tested(log: Log, seen: Record<string, 'seen' | 'faint' | 'not-seen'>, readAt: string | null): void {
  const begun = { ...(run as object), kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot: 'KIT-A' };
  const drawn = { ...(run as object), volume_ul: 120, usable: true, sample: 'whole-blood' };
  log.one('sample-drawn', 'animal:pip', drawn as never, at('2026-03-10', '09:58'));
  log.one('test-started', 'animal:pip', { ...begun, outOfColdAt: null } as never, at('2026-03-10', '10:00'));
  if (readAt === null) return;
  log.one('test-read', 'animal:pip', { run: 'run-1' as never, seen }, `2026-03-10T${readAt}.000Z`);
}
const marks = { control: 'seen', antigen: 'seen', invalid: 'not-seen' } as const;

function wardWithPip(): Log {
  const log = ward();
  log.take('pip', '2026-01-20');
  return log;
}
const flag = (log: Log, code: string, today = '2026-03-11') =>
  flagsIn(buildWorld(log.records), day(today)).find((one) => one.code === code);
const shared = 'kittens-one' as never;
const apart = (log: Log, today = '2026-03-11'): string[] => {
  const world = buildWorld(log.records);
  const pip = world.animals.get(animalId('pip'));
  return pip === undefined ? [] : apartFlags(world, pip, day(today)).map(({ code }) => code);
};
const answer = (log: Log, key: string, by: string, when: string) =>
  log.one('flag-answered', `flag:${key}`, { flag: key, answer: 'passed-on', note: 'Told.' }, when, undefined, { by });
const things = (log: Log, today = '2026-03-11'): string[] => {
  const world = buildWorld(log.records);
  const pip = world.animals.get(animalId('pip'));
  return pip === undefined ? [] : openThings(world, pip, day(today)).map((one) => one.name.say);
};
const followUp = (log: Log, says: BodyInput<'test-followed-up'>['says'], when: string) =>
  log.one('test-followed-up', 'animal:pip', { schedule: 'felv-test' as never, says, person: 'mara' as never }, when);

describe('the flag of a reactive test, Verifies: TEST-R50', () => {
  it('is not closed by words', () => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    const key = flag(log, 'reactive')?.key ?? '';
    log.one(
      'flag-answered',
      `flag:${key}`,
      { flag: key, answer: 'done', note: 'called owner' },
      at('2026-03-10', '12:00'),
    );
    expect(flag(log, 'reactive')?.state).toBe('taken');
    expect(things(log)).toContain('open.test.reactive');
  });

  it('is closed by a plan until its day is over, and by a result for good', () => {
    const log = wardWithPip();
    tested(log, { ...marks, antigen: 'faint' }, '10:08:30');
    expect(flag(log, 'reactive')?.why.say).toBe('flag.reactive.faint');
    followUp(log, { is: 'plan', what: 'another method', on: day('2026-03-20') }, at('2026-03-10', '12:00'));
    expect(flag(log, 'reactive', '2026-03-20')?.state).toBe('answered');
    expect(flag(log, 'reactive', '2026-03-21')?.state).toBe('open');
    expect(things(log, '2026-03-20')).toContain('open.test.reactive');
    followUp(log, { is: 'result', method: 'm', outcome: 'unclear', on: day('2026-03-20') }, at('2026-03-20', '12:00'));
    expect(flag(log, 'reactive', '2026-03-20')?.state).toBe('open');
    followUp(
      log,
      { is: 'result', method: 'm', outcome: 'confirmed', on: day('2026-03-22') },
      at('2026-03-22', '12:00'),
    );
    expect(flag(log, 'reactive', '2026-06-01')?.state).toBe('answered');
    expect(things(log, '2026-06-01')).not.toContain('open.test.reactive');
  });

  it('a plan answers the flag and holds the animal apart until there is a result (Verifies: ROUND-R60)', () => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    followUp(log, { is: 'plan', what: 'another method', on: day('2026-03-20') }, at('2026-03-10', '12:00'));
    expect(flag(log, 'reactive')?.state).toBe('answered');
    expect(apart(log)).toEqual(['reactive']);
    log.one('animal-moved', 'animal:pip', { section: shared, kennel: 'N9' }, at('2026-03-11', '10:00'));
    expect(flag(log, 'moved-while-apart')?.state).toBe('open');
    followUp(log, { is: 'result', method: 'm', outcome: 'not-confirmed', on: day('2026-03-12') }, at('2026-03-12'));
    expect(apart(log, '2026-03-12')).toEqual([]);
    log.one('animal-moved', 'animal:pip', { section: shared, kennel: 'N8' }, at('2026-03-12', '10:00'));
    const moves = flagsIn(buildWorld(log.records), day('2026-03-12')).filter(
      ({ code }) => code === 'moved-while-apart',
    );
    expect(moves).toHaveLength(1);
  });

  it('a confirmed test lets nobody into a shared room in silence (Verifies: TEST-R77)', () => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    followUp(
      log,
      { is: 'result', method: 'm', outcome: 'confirmed', on: day('2026-03-11') },
      at('2026-03-11', '12:00'),
    );
    const move = log.one('animal-moved', 'animal:pip', { section: shared, kennel: 'N9' }, at('2026-03-12', '10:00'));
    expect(flag(log, 'moved-while-apart', '2026-03-12')).toMatchObject({ state: 'open', about: move.id });
  });

  it('a test begun on an earlier day and never read is flagged, and due again', () => {
    const log = wardWithPip();
    tested(log, marks, null);
    expect(flag(log, 'test-unread', '2026-03-10')).toBeUndefined();
    expect(flag(log, 'test-unread', '2026-03-12')?.state).toBe('open');
    expect(things(log)).toContain('open.test.unread');
    const world = buildWorld(log.records);
    const pip = world.animals.get(animalId('pip'));
    const item = pip && dueIn(world, pip, day('2026-03-12')).find((one) => one.schedule === 'felv-test');
    expect(item?.status).toMatch(/^(due|overdue)$/);
  });

  it('a test that said nothing is open until it is repeated', () => {
    const log = wardWithPip();
    tested(log, marks, '10:30:00');
    expect(things(log)).toContain('open.test.repeat');
  });
});

describe('the ringworm lamp, Verifies: ROUND-R51', () => {
  const looked = (log: Log, answer: BodyInput<'observation-noted'>['answer']) =>
    log.one(
      'observation-noted',
      'animal:pip',
      { code: 'ringworm-lamp', state: 'present', answer, on: day('2026-03-10') },
      at('2026-03-10', '11:00'),
    );
  const lampFlags = (log: Log): string[] =>
    flagsIn(buildWorld(log.records), day('2026-03-11')).flatMap(({ code }) => (code.startsWith('lamp') ? [code] : []));

  it('raises a flag for a glow, for unsure, and for no answer, not for no glow', () => {
    const answers = ['no-glow', 'glow', 'unsure', undefined] as const;
    const raised = answers.map((answer) => {
      const log = wardWithPip();
      looked(log, answer);
      return lampFlags(log);
    });
    expect(raised).toEqual([[], ['lamp-glow'], ['lamp-unsure'], ['lamp-unanswered']]);
  });

  it('not done leaves it due', () => {
    const log = wardWithPip();
    const body = { schedule: 'ringworm-lamp' as never, reason: 'animal-too-stressed' as const };
    log.one('treatment-not-given', 'animal:pip', body, at('2026-03-10', '11:00'));
    const world = buildWorld(log.records);
    const pip = world.animals.get(animalId('pip'));
    const item = pip && dueIn(world, pip, day('2026-03-11')).find((one) => one.schedule === 'ringworm-lamp');
    expect(item?.status).toMatch(/^(due|overdue)$/);
  });

  it('says on the due list what was found', () => {
    const log = wardWithPip();
    looked(log, 'glow');
    const world = buildWorld(log.records);
    const pip = world.animals.get(animalId('pip'));
    const item = pip && dueIn(world, pip, day('2026-03-11')).find((one) => one.schedule === 'ringworm-lamp');
    expect(item).toMatchObject({ status: 'complete', finding: 'glow', because: { say: 'due.lamp.glow' } });
  });

  it('keeps the animal out of shared rooms until it is answered; a move is flagged (Verifies: ROUND-R52)', () => {
    const log = wardWithPip();
    const seen = looked(log, 'glow');
    const world = buildWorld(log.records);
    const pip = world.animals.get(animalId('pip'));
    expect(pip && apartFlags(world, pip, day('2026-03-11')).map(({ code }) => code)).toEqual(['lamp-glow']);
    const section = world.shelter.sections.find(({ rank }) => rank === 'clean-kittens')?.id ?? null;
    const move = (when: string) => log.one('animal-moved', 'animal:pip', { section, kennel: 'N9' }, when);
    move(at('2026-03-10', '12:00'));
    expect(flag(log, 'moved-while-apart')?.state).toBe('open');
    const answered = wardWithPip();
    const other = looked(answered, 'glow');
    const key = `lamp-glow:${other.id}`;
    expect(seen.id).not.toBe('');
    const word = { flag: key, answer: 'explained' as const, note: 'Culture negative.' };
    answered.one('flag-answered', `flag:${key}`, word, at('2026-03-10', '11:30'), undefined, { by: 'mara' });
    answered.one('animal-moved', 'animal:pip', { section, kennel: 'N9' }, at('2026-03-10', '12:00'));
    expect(flag(answered, 'moved-while-apart')).toBeUndefined();
  });
});

describe('who ends the hold of a glow (Verifies: ROUND-R61)', () => {
  it('is the medical team: the answer of a supervisor only takes it on, also after a later change of role', () => {
    const log = wardWithPip();
    const sol = { person: 'sol' as never, role: 'supervisor' as const };
    log.one('person-described', 'person:sol', sol, at('2026-01-02'));
    const body = { code: 'ringworm-lamp', state: 'present', answer: 'glow', on: day('2026-03-10') } as const;
    const { id } = log.one('observation-noted', 'animal:pip', body, at('2026-03-10', '11:00'));
    answer(log, `lamp-glow:${id}`, 'sol', at('2026-03-10', '12:00'));
    log.one('person-described', 'person:sol', { ...sol, role: 'medical' }, at('2026-03-10', '13:00'));
    expect(flag(log, 'lamp-glow')?.state).toBe('taken');
    expect(apart(log)).toEqual(['lamp-glow']);
    log.one('animal-moved', 'animal:pip', { section: shared, kennel: 'N9' }, at('2026-03-10', '14:00'));
    expect(flag(log, 'moved-while-apart')?.state).toBe('open');
    answer(log, `lamp-glow:${id}`, 'mara', at('2026-03-10', '15:00'));
    answer(log, `lamp-glow:${id}`, 'ines', at('2026-03-10', '16:00'));
    expect(flag(log, 'lamp-glow')).toMatchObject({ state: 'answered', answer: { answered: { by: 'mara' } } });
    expect(apart(log)).toEqual([]);
  });
});

describe('leaving with a test that is not settled, Verifies: ROUND-R53', () => {
  const leave = (log: Log, word: BodyInput<'animal-left'>['word']) =>
    log.one('animal-left', 'animal:pip', { how: 'adopted', on: day('2026-03-11'), word }, at('2026-03-11', '12:00'));

  it('is flagged when nobody gave a word, and still open afterwards', () => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    leave(log, null);
    expect(flag(log, 'left-open', '2026-03-12')?.state).toBe('open');
    expect(things(log, '2026-03-12')).toContain('open.test.reactive');
  });

  it.each(['ines', 'nobody'])('is flagged where the word is of nobody of the medical team: %s (TEST-R85)', (word) => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    leave(log, word as never);
    expect(flag(log, 'left-open', '2026-03-12')).toMatchObject({ state: 'open', severity: 'stop' });
    expect(JSON.stringify(flag(log, 'left-open', '2026-03-12')?.why)).toContain(word);
  });

  it.each(['bite-observation', 'ringworm-suspected', 'panleukopenia-exposed'])(
    'is flagged as well, and named on the page, while %s keeps it apart (Verifies: LOG-R186)',
    (code) => {
      const log = wardWithPip();
      const body = { code, state: 'present' as const, on: day('2026-03-10'), until: day('2026-03-20') };
      log.one('observation-noted', 'animal:pip', body, at('2026-03-10', '11:00'), undefined, { by: 'tom' });
      expect(things(log, '2026-03-11')).toContain('open.apart');
      leave(log, null);
      expect(flag(log, 'left-open', '2026-03-12')).toMatchObject({ state: 'open', severity: 'stop' });
      expect(things(log, '2026-03-30')).toContain('open.apart');
      const free = wardWithPip();
      free.one('observation-noted', 'animal:pip', { ...body, until: day('2026-03-10') }, at('2026-03-10', '11:00'));
      leave(free, null);
      expect(flag(free, 'left-open', '2026-03-12')).toBeUndefined();
    },
  );

  it('keeps on whose word it was', () => {
    const log = wardWithPip();
    tested(log, marks, '10:08:30');
    leave(log, 'mara' as never);
    expect(flag(log, 'left-open', '2026-03-12')).toBeUndefined();
    expect(buildWorld(log.records).animals.get(animalId('pip'))?.left).toMatchObject({ word: 'mara' });
    expect(things(log, '2026-03-12')).toContain('open.test.reactive');
  });
});
