import { describe, expect, it, test } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import { type About, asking, cat, seen, starter, starterWith, weight } from '../../../../test/support/protocol.js';
import type { ProtocolDocument } from '../document/document.js';

/** Born on 1 February, 4 weeks on 1 March, 8 weeks on 29 March; fleas were seen on 2 March. */
const formulary = starterFormulary();
const ask = (of: string, about: About = {}, protocol: ProtocolDocument = starter) =>
  asking(
    cat({ born: '2026-02-01', arrived: '2026-03-01', observations: [seen('fleas', '2026-03-02')], ...about }),
    protocol,
    formulary,
    of,
  );
const weighed = (grams: number) => ({ weighings: [weight('2026-03-02', grams)] });

describe('fleas before 8 weeks (Verifies: PROT-R70)', () => {
  it('every kitten is combed on arrival, and every day while fleas are seen', () => {
    const none = { observations: [] };
    expect(ask('flea-comb', none).on('2026-03-01')).toMatchObject({ status: 'due' });
    expect(ask('flea-comb', none).on('2026-03-02')).toMatchObject({ status: 'overdue' });
    const combed = (...days: string[]) => ({
      observations: [...days.map((on) => seen('flea-comb', on)), seen('fleas', '2026-03-02')],
    });
    expect(ask('flea-comb', combed('2026-03-02')).on('2026-03-02').status).toBe('not-yet');
    expect(ask('flea-comb', combed('2026-03-02')).on('2026-03-03').status).toBe('due');
    expect(ask('flea-comb', combed('2026-03-02', '2026-03-28')).on('2026-03-29').status).not.toBe('due');
  });
  it('is bathed from 4 weeks and 350 g on, and again after 3 days when fleas are still seen', () => {
    expect(ask('flea-bath', weighed(400)).on('2026-03-02').status).toBe('due');
    expect(ask('flea-bath', { ...weighed(400), born: '2026-02-03' }).on('2026-03-02')).toMatchObject({
      status: 'not-yet',
      due: '2026-03-03',
    });
    expect(ask('flea-bath', weighed(349)).on('2026-03-02')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'under-weight' },
    });
    const again = {
      ...weighed(400),
      observations: [seen('fleas', '2026-03-02'), seen('flea-bath', '2026-03-02'), seen('fleas', '2026-03-03')],
    };
    expect(ask('flea-bath', again).on('2026-03-04').status).toBe('not-yet');
    expect(ask('flea-bath', again).on('2026-03-05').status).toBe('due');
    expect(ask('flea-bath', { ...weighed(400), observations: [] }).on('2026-03-02').status).toBe('not-recommended');
    expect(ask('flea-bath', weighed(900)).on('2026-03-29').status).not.toBe('due');
  });
  test.each(['cold', 'weak', 'ill'])('never a kitten that is %s', (code) => {
    const observations = [seen('fleas', '2026-03-02'), seen(code, '2026-03-02')];
    expect(ask('flea-bath', { ...weighed(400), observations }).on('2026-03-02')).toMatchObject({
      status: 'on-hold',
      hold: { code },
    });
  });
  it('asks whether it is warm where nobody has said, and cold counts for that day', () => {
    const says = (about: About, on: string) => ask('flea-bath', { ...weighed(400), ...about }).on(on).asks ?? [];
    expect(says({}, '2026-03-02')[0]).toMatchObject({ say: 'due.ask.unknown' });
    const cold = { observations: [seen('fleas', '2026-03-02'), seen('cold', '2026-03-02')] };
    expect(ask('flea-bath', { ...weighed(400), ...cold }).on('2026-03-04').status).toBe('due');
  });
  it('the other choice bathes at any age', () => {
    const any = starterWith({ 'flea-bath-youngest': 'any-age' });
    const young = { ...weighed(110), born: '2026-02-25' };
    expect(ask('flea-bath', young, any).on('2026-03-02').status).toBe('due');
    expect(ask('flea-bath', { ...young, ...weighed(74) }, any).on('2026-03-02').status).toBe('on-hold');
  });
});

/** NOAH Compendium, record -462455: not under 4 weeks or 1 kg, at most once a day. */
describe('the tablet against adult fleas, by its label (Verifies: PROT-R71)', () => {
  it('from 4 weeks and 1 kg, once a day, until treatments for the skin begin', () => {
    expect(ask('flea-tablet', weighed(1000)).on('2026-03-02')).toMatchObject({
      status: 'due',
      products: ['nitenpyram-tablet-11-4'],
    });
    expect(ask('flea-tablet', weighed(999)).on('2026-03-02')).toMatchObject({ hold: { code: 'under-weight' } });
    expect(ask('flea-tablet', { ...weighed(1000), born: '2026-02-03' }).on('2026-03-02')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'under-label-age' },
    });
    expect(ask('flea-tablet', weighed(1000)).on('2026-03-29').status).not.toBe('due');
    expect(ask('flea-tablet', { ...weighed(4000), born: '2024-02-01' }).on('2026-03-02').status).toBe(
      'not-recommended',
    );
  });
});
