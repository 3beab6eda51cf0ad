import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import type { BodyInput } from '../kinds/index.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-10';

/** Pip, thirty days old, and Una, grown. */
function withCats(): Log {
  const log = ward();
  log.take('pip', '2026-02-08');
  log.take('una', '2024-01-20', { sex: 'female', arrivedOn: day('2026-03-01') });
  return log;
}
const weighed = (log: Log, cat: string, grams: number, time: string, doubtful = false) =>
  log.one('animal-weighed', `animal:${cat}`, { grams, entered: `${grams} g`, doubtful }, at(on, time));
function wormed(log: Log, cat: string, weighing: { id: string }, grams: number, more: object = {}) {
  const body = { schedule: 'worming', product: 'pyrantel-50', lot: 'worm-a', route: 'by mouth', grams, ...more };
  const own = { weight: weighing.id, volume_ul: grams / 5, planned_ul: grams / 5 };
  log.one('treatment-given', `animal:${cat}`, { ...own, ...body } as never, at(on, '10:00'));
}
const doubts = (log: Log, cat: string) =>
  buildWorld(log.records)
    .animals.get(animalId(cat))
    ?.weighings.map(({ doubtful }) => doubtful);
const flags = (log: Log) => flagsIn(buildWorld(log.records), day(on));
const codes = (log: Log) => flags(log).map(({ code }) => code);

describe('a weight is judged by the record, whatever the device made of it (Verifies: LOG-R160)', () => {
  it.each([
    ['ten times the last one an hour ago', 'pip', [400, 4000], [false, true]],
    ['the first one of a kitten, of no cat', 'pip', [15_000], [true]],
    ['a grown cat nine times heavier', 'una', [1000, 9000], [false, true]],
    ['a quarter of the last one', 'una', [4000, 1000], [false, true]],
    ['one after which the old one comes again', 'pip', [400, 4000, 405], [false, true, false]],
    ['one as it should be', 'pip', [400, 420], [false, false]],
    ['two that agree: weighed again at once', 'pip', [300, 420, 425], [false, true, false]],
  ])('%s', (_, cat, grams, expected) => {
    const log = withCats();
    for (const [index, one] of grams.entries()) weighed(log, cat, one, `08:${10 + 20 * index}`);
    expect(doubts(log, cat)).toEqual(expected);
    expect(codes(log).includes('weight-doubtful')).toBe(expected.at(-1));
  });

  it('and what a device doubted stays doubtful', () => {
    const log = withCats();
    weighed(log, 'pip', 400, '08:00', true);
    expect(doubts(log, 'pip')).toEqual([true]);
  });

  it('a loss of a tenth stays a stop although the weight itself is doubted', () => {
    const log = withCats();
    log.one('animal-weighed', 'animal:una', { grams: 4000, entered: '4000 g' }, at('2026-03-09'));
    weighed(log, 'una', 3000, '20:00');
    expect(codes(log)).toEqual(expect.arrayContaining(['weight-doubtful', 'weight-loss']));
  });
});

describe('a dose that goes by a doubtful weight is a stop (Verifies: LOG-R161)', () => {
  const given = (log: Log) => flags(log).filter(({ code }) => code === 'given-doubtful-weight');

  it('also where no device doubted it', () => {
    const log = withCats();
    weighed(log, 'pip', 400, '08:00');
    wormed(log, 'pip', weighed(log, 'pip', 4000, '09:00'), 4000);
    expect(given(log)).toMatchObject([{ severity: 'stop', for: ['supervisor', 'medical'] }]);
    expect(given(log)[0]?.why.with?.['weight']).toEqual({ grams: 4000 });
    expect(codes(log)).toContain('outside-limits');
  });

  it('by the weight that stood last where the dose names none', () => {
    const log = withCats();
    wormed(log, 'pip', weighed(log, 'pip', 15_000, '09:00'), 400, { weight: null, grams: null });
    expect(given(log)).toHaveLength(1);
  });

  it.each([
    ['on a weight that is believed', (log: Log) => wormed(log, 'pip', weighed(log, 'pip', 400, '08:00'), 400)],
    [
      'where it was weighed again before it',
      (log: Log) => {
        weighed(log, 'pip', 4000, '08:00');
        wormed(log, 'pip', weighed(log, 'pip', 400, '09:00'), 400);
      },
    ],
    [
      'of what is no dose by weight',
      (log: Log) => {
        const vaccine = { schedule: 'core-vaccine', product: 'core-vaccine-live-1ml', route: 'under the skin' };
        wormed(log, 'pip', weighed(log, 'pip', 4000, '08:00'), 4000, { ...vaccine, volume_ul: 1000, planned_ul: 1000 });
      },
    ],
    [
      'where the gate of it was passed, which has a flag of its own',
      (log: Log) => {
        const passed: BodyInput<'treatment-given'>['passed'] = [
          { gate: 'weight-doubtful', how: 'in-person', reason: 'Seen.', by: 'mara' as never },
        ];
        wormed(log, 'pip', weighed(log, 'pip', 4000, '08:00'), 4000, { passed });
      },
    ],
  ])('and not %s', (_, act) => {
    const log = withCats();
    act(log);
    expect(given(log)).toEqual([]);
  });
});

describe('a weight that no cat of its age has is not proved by one scale (Verifies: LOG-R171)', () => {
  /** Pip is thirty days old: from 160 to 1,300 g are believed. */
  const twice = (more: object = {}, by = 'ines') => {
    const log = withCats();
    weighed(log, 'pip', 2000, '08:00');
    const second = log.one(
      'animal-weighed',
      'animal:pip',
      { grams: 2050, entered: '2050 g', ...more },
      at(on, '08:10'),
      undefined,
      { by },
    );
    return { log, second };
  };
  const told = (log: Log) => flags(log).filter(({ code }) => code === 'weight-beyond-age');

  it('stays doubtful when it is weighed again on the same one, and is a stop', () => {
    const { log, second } = twice();
    expect(doubts(log, 'pip')).toEqual([true, true]);
    expect(told(log)).toMatchObject([{ severity: 'stop', about: second.id, for: ['supervisor', 'medical'] }]);
    wormed(log, 'pip', second, 2050);
    expect(codes(log)).toContain('given-doubtful-weight');
  });

  it('also where the device doubted both, and below what any has', () => {
    const log = withCats();
    weighed(log, 'pip', 100, '08:00', true);
    weighed(log, 'pip', 102, '08:10', true);
    expect(doubts(log, 'pip')).toEqual([true, true]);
    expect(told(log)).toHaveLength(1);
  });

  it('stays doubtful also where a volunteer says that it was another scale', () => {
    const { log } = twice({ otherScale: true }, 'ines');
    expect(doubts(log, 'pip')).toEqual([true, true]);
    expect(told(log)).toMatchObject([{ severity: 'stop' }]);
  });

  it('is believed by the medical team’s own hand that agrees, and so is what follows it', () => {
    const { log } = twice({}, 'mara');
    expect(doubts(log, 'pip')).toEqual([true, false]);
    expect(told(log)).toEqual([]);
    weighed(log, 'pip', 2060, '20:00');
    expect(doubts(log, 'pip')).toEqual([true, false, false]);
  });

  it('is not believed at once on another scale, with nothing that it agrees with', () => {
    const log = withCats();
    log.one('animal-weighed', 'animal:pip', { grams: 2000, entered: '2000 g', otherScale: true }, at(on, '08:00'));
    expect(doubts(log, 'pip')).toEqual([true]);
  });

  it('nor are two on one scale that are far from the last weight, until another scale agrees, which is told', () => {
    const again = (more: object) => {
      const log = withCats();
      weighed(log, 'una', 4000, '07:00');
      weighed(log, 'una', 7000, '08:00');
      log.one('animal-weighed', 'animal:una', { grams: 7010, entered: '7010 g', ...more }, at(on, '08:10'));
      return log;
    };
    expect(doubts(again({}), 'una')).toEqual([false, true, true]);
    expect(flags(again({})).find(({ code }) => code === 'weight-beyond-jump')).toMatchObject({
      severity: 'stop',
      for: ['supervisor', 'medical'],
    });
    expect(doubts(again({ otherScale: true }), 'una')).toEqual([false, true, false]);
    expect(codes(again({ otherScale: true }))).toContain('weight-other-scale');
  });

  it('is believed once the age is put right', () => {
    const { log } = twice();
    const born = { earliest: day('2025-11-01'), latest: day('2025-11-01'), basis: 'estimated' } as const;
    log.one('animal-described', 'animal:pip', { born, arrivedOn: day('2026-02-08') }, at(on, '09:00'));
    expect(doubts(log, 'pip')).toEqual([false, false]);
  });
});
