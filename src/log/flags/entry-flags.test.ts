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

  it('neither a name nor a number', () => {
    const log = withTwo();
    described(log, { name: 'Pip', label: '' });
    expect(codes(log)).not.toContain('name-unseen pip attention');
    described(log, { name: '', label: '' });
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

describe('a day on which there was no such animal (Verifies: LOG-R141)', () => {
  const weighed = (log: Log, when: string, grams: number) =>
    log.one('animal-weighed', 'animal:pip', { grams, entered: `${grams}`, doubtful: false }, when);

  it.each(['0001-01-01T00:00:00.000Z', at('1989-12-31'), at('2026-01-19')])(
    'is flagged, and tells no loss: %s',
    (when) => {
      const log = withTwo();
      weighed(log, when, 1500);
      weighed(log, at(on), 1000);
      expect(codes(log).filter((one) => one.startsWith('weight-') || one.startsWith('long-'))).toEqual([
        'long-before pip attention',
      ]);
      const pip = buildWorld(log.records).animals.get('pip' as never);
      expect(pip?.weighings.map(({ doubtful }) => doubtful)).toEqual([true, false]);
    },
  );

  it('is not the day of birth, nor any day where nobody knows that', () => {
    const log = withTwo();
    weighed(log, at('2026-01-20'), 90);
    log.take('old', '2020-01-01', {
      born: { earliest: day('2020-01-01'), latest: day('2020-01-01'), basis: 'unknown' },
    });
    log.one('animal-weighed', 'animal:old', { grams: 4000, entered: '4000', doubtful: false }, at('2019-12-31'));
    expect(codes(log).filter((one) => one.startsWith('long-before'))).toEqual([]);
  });
});

describe('a reading of an animal that nobody has taken in (Verifies: TEST-R76)', () => {
  const kit = { run: 'run-1', schedule: 'felv-test', kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A' };
  const read = (log: Log, seen: object, time: string) => {
    const start = { ...kit, conjugateLot: 'KIT-A', outOfColdAt: null };
    log.one('test-started', 'animal:stray', start as never, at(on, '10:00'));
    return log.one('test-read', 'animal:stray', { run: 'run-1', seen } as never, at(on, time));
  };
  const marks = { control: 'seen', antigen: 'faint', invalid: 'not-seen' };

  it('is a stop when it is reactive, or has a mark and does not count', () => {
    const log = withTwo();
    read(log, marks, '10:09');
    expect(codes(log)).toEqual(expect.arrayContaining(['reactive stray stop', 'unknown-animal null attention']));
    const late = withTwo();
    read(late, marks, '10:20');
    expect(codes(late)).toContain('mark-not-counted stray stop');
    const negative = withTwo();
    read(negative, { ...marks, antigen: 'not-seen' }, '10:09');
    expect(codes(negative).filter((one) => one.includes('stray'))).toEqual([]);
  });

  it('is a stop when its test was never begun there, until somebody has answered (Verifies: LOG-R170)', () => {
    const log = withTwo();
    const { id } = log.one('test-read', 'animal:stray', { run: 'run-9', seen: marks } as never, at(on, '10:09'));
    expect(codes(log)).toContain('reading-elsewhere stray stop');
    log.one('record-withdrawn', 'animal:stray', { reason: 'wrong' }, at(on, '11:00'), id, { by: 'mara' });
    expect(codes(log)).toContain('reading-elsewhere stray stop');
    const flag = `reading-elsewhere:${id}`;
    const word = { flag, answer: 'explained', note: 'Oak’s.' } as const;
    log.one('flag-answered', `flag:${flag}`, word, at(on, '12:00'), undefined, { by: 'mara' });
    expect(codes(log)).not.toContain('reading-elsewhere stray stop');
  });

  it('stays one when it is taken back, and when the animal is taken in', () => {
    const log = withTwo();
    const { id } = read(log, marks, '10:09');
    log.take('stray', '2026-01-20');
    expect(codes(log)).toContain('reactive stray stop');
    const back = withTwo();
    const again = read(back, marks, '10:09');
    expect(again.id).toBe(id);
    back.one('record-withdrawn', 'animal:stray', { reason: 'wrong' }, at(on, '11:00'), again.id, { by: 'tom' });
    expect(codes(back)).toContain('reading-taken-back stray stop');
  });
});
