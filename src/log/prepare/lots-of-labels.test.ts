import { describe, expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { usualSettings } from '../../core/route-plan/model/settings.js';
import { buildWorld } from '../views/world.js';
import { drawUpsFor } from './draw-ups.js';
import { expiresBefore, lotsOfRound } from './lots-of-labels.js';
import { prepareRound } from './prepare.js';

const on = '2026-03-12';
const now = at(on, '11:00');
const names = ['ash', 'bay', 'elm', 'fir', 'oak'];
const round = 'round-1' as never;
const worm = 'roundworm' as never;
const lines = names.map((animal) => ({ animal: animal as never, schedules: [worm] }));

/** Five kittens to be wormed; two pieces of one lot, and one that expires later with two. */
function nursery() {
  const log = ward();
  const stock = (id: string, expires: string, pieces: number) =>
    log.one(
      'lot-received',
      `lot:${id}`,
      { of: { is: 'product', product: 'pyrantel-50' as never }, lotText: id, expires: day(expires), pieces },
      at('2026-03-01'),
    );
  log.one('lot-withdrawn', 'lot:worm-a', { why: 'used-up', note: '' } as never, at('2026-03-01'));
  stock('early', '2026-05-01', 2);
  stock('later', '2026-09-01', 2);
  for (const name of names) {
    log.take(name, '2026-01-20');
    log.one('animal-weighed', `animal:${name}`, { grams: 700, entered: '700 g' }, at(on, '08:00'));
  }
  const world = () => buildWorld(log.records);
  const give = (name: string, lot: string) =>
    log.one(
      'treatment-given',
      `animal:${name}`,
      { schedule: worm, product: 'pyrantel-50', lot, volume_ul: 140, route: 'mouth', round } as never,
      at(on, '10:00'),
    );
  return { ...log, world, give, stock };
}

function laid() {
  const log = nursery();
  log.one(
    'round-planned',
    `round:${round}`,
    { on: day(on), sections: ['kittens-one'], treater: 'ines', holder: null, lines } as never,
    at(on, '09:00'),
  );
  return log;
}

const shown = (log: ReturnType<typeof nursery>) =>
  Object.fromEntries(
    names.map((name) => [name, lotsOfRound(log.world(), round, day(on)).get(`${name} roundworm`)?.lotText]),
  );

describe('the lots of a sheet (Verifies: SHEET-R40)', () => {
  it('are named for no more doses than there are', () => {
    const named = drawUpsFor(nursery().world(), lines, now).map(({ animal, lot }) => [animal.id, lot?.lotText ?? null]);
    expect(named).toEqual([
      ['ash', 'early'],
      ['bay', 'early'],
      ['elm', 'later'],
      ['fir', 'later'],
      ['oak', null],
    ]);
  });
});

describe('the lot that expires first (Verifies: ROUND-R91)', () => {
  const earlier = (log: ReturnType<typeof nursery>, name: string) => {
    const world = log.world();
    const lot = lotsOfRound(world, round, day(on)).get(`${name} roundworm`);
    const found = lot === undefined ? null : expiresBefore(world, round, lot, day(on));
    return found === null ? null : { lot: found.lot.lotText, left: found.left, for: found.for };
  };

  it('is for the animals that the plan takes in hand first, whatever order the lines have', () => {
    const log = nursery();
    const handling = (animal: string, start: number) => ({
      is: 'handling',
      kind: 'oral',
      animal,
      litter: '',
      op: 0,
      start,
      duration: 2,
    });
    const steps = ['oak', 'fir', 'ash', 'bay', 'elm'].map((name, i) => handling(name, i * 2));
    const visit = { section: 'kittens-one', start: 0, inside: 0, out: 10, end: 12, steps };
    const ribbon = { unitSeconds: 30, bound: 10, settings: usualSettings, visits: [visit] };
    const plan = { on: day(on), sections: ['kittens-one'], treater: 'ines', holder: null, lines, ribbon };
    log.one('round-planned', `round:${round}`, plan as never, at(on, '09:00'));
    expect(shown(log)).toEqual({ oak: 'early', fir: 'early', ash: 'later', bay: 'later', elm: undefined });
  });

  it('says for whom it is meant where the card offers another, and when it was left over', () => {
    const log = laid();
    expect(earlier(log, 'ash')).toBeNull();
    expect(earlier(log, 'elm')).toEqual({ lot: 'early', left: 2, for: ['ash', 'bay'] });
    log.give('ash', 'early');
    expect(earlier(log, 'elm')).toEqual({ lot: 'early', left: 1, for: ['bay'] });
    const left = { schedule: worm, reason: 'refused-or-escaped', round, note: '' };
    log.one('treatment-not-given', 'animal:bay', left as never, at(on, '10:30'));
    expect(earlier(log, 'elm')).toEqual({ lot: 'early', left: 1, for: [] });
  });

  it('is on the cart with as many doses as the cards name it for', () => {
    const log = laid();
    const prepared = prepareRound(log.world(), ['kittens-one' as never], now);
    const cart = prepared.lots.flatMap(({ lot, doses }) =>
      doses > 0 && lot.of.is === 'product' && lot.of.product === 'pyrantel-50' ? [[lot.lotText, doses]] : [],
    );
    const cards = Object.values(shown(log));
    expect(cart).toEqual([
      ['early', cards.filter((one) => one === 'early').length],
      ['later', cards.filter((one) => one === 'later').length],
    ]);
  });
});

describe('the lot on label and screen (Verifies: ROUND-R72)', () => {
  const all = { ash: 'early', bay: 'early', elm: 'later', fir: 'later', oak: undefined };

  it('is one, whatever was given before, left out, or given from another bottle', () => {
    const log = laid();
    expect(shown(log)).toEqual(all);
    log.give('elm', 'later');
    expect(shown(log)).toEqual(all);
    log.give('bay', 'later');
    expect(shown(log)).toEqual(all);
    const left = { schedule: worm, reason: 'refused-or-escaped', round, note: '' };
    log.one('treatment-not-given', 'animal:ash', left as never, at(on, '10:30'));
    expect(shown(log)).toEqual(all);
    const sheet = drawUpsFor(log.world(), lines, now, round).map(({ animal, lot }) => [animal.id, lot?.lotText]);
    expect(sheet).toEqual(sheet.map(([name]) => [name, all[name as keyof typeof all]]));
    expect(sheet.length).toBeGreaterThan(0);
  });

  it('does not change for a bottle that came in afterwards', () => {
    const log = laid();
    log.one(
      'lot-received',
      'lot:newest',
      {
        of: { is: 'product', product: 'pyrantel-50' as never },
        lotText: 'newest',
        expires: day('2026-04-01'),
        pieces: 9,
      },
      at(on, '09:30'),
    );
    expect(shown(log)).toEqual({ ...all, oak: 'newest' });
  });
});
