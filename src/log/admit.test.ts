import { describe, expect, it } from 'vitest';
import { at, day } from '../../test/support/log.js';
import { shelterLog, shelterPeople } from '../../test/support/shelter-log.js';
import { admission } from './admit.js';
import type { BodyInput, Kind } from './kinds/index.js';
import { signersOf } from './private-side.js';
import type { LogRecord } from './record.js';
import { buildWorld } from './views/world.js';

const noon = at('2026-03-02', '12:00');

/** The invented shelter, and what it says to a record that somebody sends: Ines volunteers, Sol is at the desk, Vera is the vet. */
function shelter() {
  const log = shelterLog(1);
  const sent = <K extends Kind>(kind: K, subject: string, body: BodyInput<K>, by: string): LogRecord => {
    const record = log.one(kind, subject, body, noon, undefined, { by });
    log.records.pop();
    return record as LogRecord;
  };
  const admit = async (record: LogRecord): Promise<string> => {
    const { shelter } = buildWorld(log.records);
    const one = await admission(shelter, signersOf(shelterPeople), [record], async (ids) =>
      log.records.filter(({ id }) => ids.includes(id)),
    );
    const answer = one(record);
    return answer.ok ? 'in' : answer.why.say;
  };
  return { log, sent, admit };
}

describe('a word about a reactive test (Verifies: TEST-R74)', () => {
  const body = (person: string): BodyInput<'test-followed-up'> => ({
    schedule: 'felv-test' as never,
    says: { is: 'plan', what: 'another method', on: day('2026-03-09') },
    person: person as never,
  });
  const refused = 'log.follow-up-person';

  it.each([
    ['vera', 'in'],
    ['ines', refused],
    ['sol', refused],
    ['nobody', refused],
  ])('of %s: %s', async (person, answer) => {
    const { admit, sent } = shelter();
    expect(await admit(sent('test-followed-up', 'animal:kit-1', body(person), 'sol'))).toBe(answer);
  });

  it('of somebody who was of the medical team when it was written still comes in', async () => {
    const { log, admit, sent } = shelter();
    const record = sent('test-followed-up', 'animal:kit-1', body('vera'), 'sol');
    const now = { person: 'vera' as never, role: 'volunteer' as const };
    log.one('person-described', 'person:vera', now, at('2026-03-02', '13:00'), undefined, { by: 'sol' });
    expect(await admit(record)).toBe('in');
  });
});

describe('a record that is filed under one thing and speaks of another (Verifies: LOG-R140)', () => {
  const person = { person: 'ines' as never, role: 'medical' as const };
  const retired = { document: 'protocol', id: 'b', version: '1', why: 'old' } as const;
  const section = {
    section: 'b' as never,
    name: 'B',
    rank: 'quarantine' as const,
    position: 0,
    kennels: [],
    wear: [],
    leave: [],
    contactMinutes: 10,
  };
  it.each([
    ['person-described', person, 'person:ines', 'person:sol'],
    ['section-described', section, 'section:b', 'section:a'],
    ['document-retired', retired, 'document:b', 'document:a'],
    ['document-retired', retired, 'document:b', 'shelter:self'],
  ] as const)('is malformed: %s', async (kind, body, own, other) => {
    const { admit, sent } = shelter();
    const by = kind === 'document-retired' ? 'vera' : 'sol';
    expect(await admit(sent(kind, other, body as never, by))).toBe('log.subject-elsewhere');
    expect(await admit(sent(kind, own, body as never, by))).toBe('in');
  });
});

describe('the word on which an animal leaves with something open (Verifies: TEST-R85)', () => {
  it.each([
    ['vera', 'in'],
    [null, 'in'],
    ['ines', 'log.leave-word-person'],
    ['sol', 'log.leave-word-person'],
    ['nobody', 'log.leave-word-person'],
  ])('of %s: %s', async (word, answer) => {
    const { admit, sent } = shelter();
    const body = { how: 'adopted', on: day('2026-03-02'), word: word as never } as const;
    expect(await admit(sent('animal-left', 'animal:kit-1', body, 'sol'))).toBe(answer);
  });
});
