import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { parseRecord } from '../record.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

const today = day('2026-03-11');
const on = '2026-03-10';
type Log = ReturnType<typeof ward>;
const codes = (log: Log): string[] =>
  flagsIn(buildWorld(log.records), today)
    .filter(({ state }) => state === 'open')
    .map(({ code, animal, severity }) => `${code} ${animal} ${severity}`);
const withTwo = (): Log => {
  const log = ward();
  log.take('pip', '2026-01-20');
  log.take('oak', '2026-01-20');
  return log;
};

describe('entries that do not fit (Verifies: LOG-R137)', () => {
  it('a reading of one animal’s run filed under another', () => {
    const log = withTwo();
    const run = { run: 'run-1', schedule: 'felv-test' };
    const kit = { ...run, kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot: 'KIT-A' };
    log.one('test-started', 'animal:pip', { ...kit, outOfColdAt: null } as never, at(on, '10:00'));
    const seen = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
    log.one('test-read', 'animal:oak', { run: 'run-1', seen } as never, at(on, '10:08'));
    expect(codes(log)).toContain('reading-elsewhere oak stop');
    log.one('test-read', 'animal:pip', { run: 'run-1', seen } as never, at(on, '10:09'));
    expect(codes(log).filter((one) => one.startsWith('reading-elsewhere'))).toHaveLength(1);
  });

  it.each([
    ['3.4 kg', 340, true],
    ['3.4 kg', 3400, false],
    ['650', 650, false],
    ['0.65', 650, false],
    ['1 lb 8 oz', 680, false],
    ['650', 560, true],
    ['with the basket', 650, false],
    ['', 650, false],
  ])('typed %s, kept as %i g', (entered, grams, flagged) => {
    const log = withTwo();
    log.one('animal-weighed', 'animal:pip', { entered, grams }, at(on, '10:00'));
    expect(codes(log).includes('weight-entered-differs pip attention')).toBe(flagged);
  });
});

describe('who an animal is said to be (Verifies: LOG-R138)', () => {
  const described = (log: Log, body: object) =>
    log.one('animal-described', 'animal:pip', body as never, at(on, '10:00'));

  it('a birth after the day of arrival', () => {
    const log = withTwo();
    expect(codes(log)).not.toContain('born-after pip stop');
    described(log, { born: { earliest: day('2030-01-01'), latest: day('2030-01-01'), basis: 'known' } });
    expect(codes(log)).toContain('born-after pip stop');
  });

  it.each(['\u200b', ' \u2060\ufeff', '\u202e'])('a name that cannot be seen', (name) => {
    const log = withTwo();
    described(log, { name });
    expect(codes(log)).toContain('name-unseen pip attention');
  });
});

describe('an answer to a flag (Verifies: LOG-R135)', () => {
  it('is about the flag that it names', () => {
    const log = withTwo();
    const answer = log.one('flag-answered', 'flag:a', { flag: 'a', answer: 'done', note: 'Looked.' }, at(on));
    expect(parseRecord(answer).ok).toBe(true);
    const other = { ...answer, body: { ...answer.body, flag: 'b' } };
    expect(parseRecord(other)).toMatchObject({ ok: false, why: { say: 'log.flag-elsewhere' } });
  });
});
