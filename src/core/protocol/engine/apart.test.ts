import { describe, expect, it } from 'vitest';
import {
  age,
  asking,
  cat,
  catalogueOf,
  day,
  given,
  giving,
  once,
  protocolOf,
} from '../../../../test/support/protocol.js';
import { evaluate } from './evaluate.js';
import { forecast } from './forecast.js';

/** Cats are born 1 January 2026. */
const source = { source: 'test-source', standing: 'read' } as const;
const worm = catalogueOf('wormer', 'other', 'wormer+other');
const small = (targets: readonly object[], more: object = {}, animal: Parameters<typeof cat>[0] = {}) =>
  asking(cat(animal), protocolOf(giving('wormer', targets, more)), worm, 'wormer');

describe('combinations', () => {
  it('one of two products counts for each schedule whose class it has, Verifies: PROT-R7', () => {
    const protocol = protocolOf(giving('wormer', [once('only')]), giving('other', [once('only')]));
    const input = { animal: cat({ history: [given('wormer-and-other', '2026-02-01')] }), formulary: worm };
    expect(evaluate(input, protocol, day('2026-02-02')).map((one) => `${one.schedule} ${one.status}`)).toEqual([
      'wormer valid',
      'other valid',
    ]);
    expect(forecast(input, protocol, day('2026-02-02'))[0]?.products).toEqual(['wormer', 'wormer-and-other']);
  });

  it('a window that another product opens is free again on its last day, Verifies: PROT-R17', () => {
    const apart = [{ class: 'other', begins: { days: 0 }, ends: { days: 7 }, ...source }];
    const of = (on: string) =>
      small([once('only')], { apart }, { history: [given('other', '2026-02-01'), given('wormer', on)] }).past(
        '2026-03-01',
      )[0];
    expect(of('2026-02-07')).toMatchObject({
      status: 'not-valid',
      reason: 'too-near-other-product',
      validFrom: '2026-02-08',
    });
    expect(of('2026-02-08')?.status).toBe('valid');
    const forward = small([once('only')], { apart }, { history: [given('other', '2026-02-01')] });
    expect(forward.on('2026-02-07')).toMatchObject({ status: 'not-yet', due: '2026-02-08' });
    expect(forward.on('2026-02-08')).toMatchObject({ status: 'due', due: '2026-01-01' });
    // Old enough on the first free day: its age decided, not the window.
    const grown = [once('only', { age: { minimum: age({ days: 38 }) } })];
    expect(small(grown, { apart }, { history: [given('other', '2026-02-01')] }).on('2026-02-08').because.say).toBe(
      'due.age',
    );
    expect(forward.on('2026-02-07').trace.filter((one) => one.bound)).toMatchObject([{ rule: 'apart', value: 'P7D' }]);
  });

  const away = (length: object, more: object) => ({ begins: { days: 0 }, ends: length, ...more, ...source });
  const byClass = { apart: [away({ days: 7 }, { class: 'other' })] };
  const byIngredient = { apartIngredients: [away({ days: 10 }, { ingredient: 'other' })] };
  const dueAfter = (more: object, rest: object = {}) => {
    const animal = cat({ history: [given('other', '2026-02-01')] });
    const input = { animal, formulary: worm, ...rest };
    return forecast(input, protocolOf(giving('wormer', [once('only')], more)), day('2026-02-03'))[0]?.due;
  };

  it('a window is that of a class, of an ingredient, or the longer of both, Verifies: PROT-R17', () => {
    expect(dueAfter({})).toBe('2026-01-01');
    expect(dueAfter(byClass)).toBe('2026-02-08');
    expect(dueAfter(byIngredient)).toBe('2026-02-11');
    expect(dueAfter({ ...byClass, ...byIngredient })).toBe('2026-02-11');
  });

  it('a product taken off the list still keeps its distance by class and by ingredient', () => {
    const former = { formulary: catalogueOf('wormer'), formerFormularies: [worm] };
    expect(dueAfter(byClass, former)).toBe('2026-02-08');
    expect(dueAfter(byIngredient, former)).toBe('2026-02-11');
    expect(dueAfter(byIngredient, { formulary: null })).toBe('2026-01-01');
  });
});
