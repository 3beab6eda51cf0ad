import { describe, expect, it, test } from 'vitest';
import {
  type About,
  asking,
  cat,
  catalogueOf,
  chipped,
  day,
  dayBefore,
  given,
  plus,
  seen,
  starter,
  starterWith,
  tested,
  weight,
} from '../../../../test/support/protocol.js';
import type { ChipScan, HistoryEvent } from '../../animal/animal.js';
import type { SectionRank } from '../../biosecurity/section.js';
import { type Product, StandingOrder } from '../../dosing/formulary.js';
import { RecordId } from '../../ids.js';
import type { ProtocolDocument } from '../document/document.js';
import { withVariant } from '../document/variant.js';
import type { Catalogue, ProtocolInput } from '../input.js';
import { evaluate } from './evaluate.js';
import { forecast } from './forecast.js';

/** The schedules of the starter protocol, each probed a day before, on and after its limits. */
const products = catalogueOf(
  'core-vaccine-live',
  'rabies-vaccine',
  'felv-vaccine',
  'roundworm',
  'coccidia',
  'tapeworm',
  'topical-flea',
  'ear-mite',
);
const ask = (of: string, about: About = {}, protocol: ProtocolDocument = starter, formulary: Catalogue = products) =>
  asking(cat(about), protocol, formulary, of);
const statuses = (of: ReturnType<typeof ask>, ...days: string[]): string[] => days.map((on) => of.on(on).status);

describe('a course of 3 days, Verifies: PROT-R3', () => {
  const found = seen('coccidia', '2026-03-01');
  const course = (...days: string[]) =>
    ask('coccidia', { observations: [found], history: days.map((on) => given('coccidia', on)) });

  it('does not lose its second and third day', () => {
    expect(course().on('2026-03-01')).toMatchObject({ status: 'due', dose: 1 });
    expect(course('2026-03-01').on('2026-03-01')).toMatchObject({ status: 'not-yet', due: '2026-03-02', dose: 2 });
    expect(statuses(course('2026-03-01'), '2026-03-02', '2026-03-03')).toEqual(['due', 'overdue']);
    expect(course('2026-03-01', '2026-03-04').on('2026-03-05')).toMatchObject({
      status: 'due',
      dose: 3,
      due: '2026-03-05',
    });
    expect(course('2026-03-01', '2026-03-02', '2026-03-03').on('2026-03-04').status).toBe('complete');
  });

  it('begins again when it is found again, on a later day, Verifies: PROT-R27', () => {
    const history = ['2026-03-01', '2026-03-02', '2026-03-03'].map((on) => given('coccidia', on));
    const again = (on: string) =>
      ask('coccidia', { observations: [found, seen('coccidia', on)], history }).on('2026-03-20');
    expect(again('2026-03-03').status).toBe('complete');
    expect(again('2026-03-10')).toMatchObject({ status: 'due', dose: 1, due: '2026-03-10' });
  });

  it('is for all kittens at intake where the shelter says so', () => {
    const intake = starterWith({ 'coccidia-when': 'at-intake' });
    expect(statuses(ask('coccidia', {}, intake), '2026-01-14', '2026-01-15')).toEqual(['not-yet', 'due']);
    expect(ask('coccidia', { arrived: '2026-07-01' }, intake).on('2026-07-01').status).toBe('not-recommended');
  });
});

describe('worms', () => {
  const queen = { born: '2024-01-01', arrived: '2026-03-01', sex: 'female' as const };
  const nursing = seen('nursing', '2026-03-01');

  it('a queen is treated with her litter for as long as she nurses, Verifies: PROT-R34', () => {
    const history = ['2026-03-01', '2026-03-15'].map((on) => given('roundworm', on));
    const with_ = ask('roundworm', { ...queen, observations: [nursing], history });
    expect(statuses(with_, '2026-03-28', '2026-03-29', '2026-03-30')).toEqual(['not-yet', 'due', 'overdue']);
    const over = [nursing, seen('nursing', '2026-03-20', { state: 'absent' })];
    expect(ask('roundworm', { ...queen, observations: over, history }).on('2026-03-29')).toMatchObject({
      status: 'not-yet',
      due: '2026-04-15',
    });
  });

  test.each([
    ['eight-weeks', '2026-02-26'],
    ['nine-weeks', '2026-03-05'],
    ['ten-weeks', '2026-03-12'],
    ['four-months', '2026-05-01'],
  ])('every 2 weeks to %s', (option, end) => {
    const protocol = starterWith({ 'roundworm-two-weekly': option });
    const at = (on: string) =>
      ask('roundworm', { history: [given('roundworm', '2026-02-01'), given('roundworm', on)] }, protocol).on(on).due;
    expect(at(dayBefore(end))).toBe(plus(dayBefore(end), { weeks: 2 }));
    expect(at(end)).toBe(plus(end, { months: 1 }));
  });

  test.each([
    ['monthly', 'due'],
    ['monthly-to-six-months', 'complete'],
    ['four-weekly-to-24-weeks', 'complete'],
  ])('then %s', (option, status) => {
    const of = ask(
      'roundworm',
      { history: [given('roundworm', '2026-04-20'), given('roundworm', '2026-05-04')] },
      starterWith({ 'roundworm-later': option }),
    );
    expect(['due', 'overdue'].includes(of.on('2026-07-01').status) ? 'due' : of.on('2026-07-01').status).toBe(status);
  });

  it('tapeworm on sight, or from 12 weeks every 4', () => {
    expect(ask('tapeworm').on('2026-05-01').status).toBe('not-recommended');
    expect(ask('tapeworm', { observations: [seen('tapeworm', '2026-05-01')] }).on('2026-05-01').status).toBe('due');
    const from = ask('tapeworm', {}, starterWith({ 'tapeworm-when': 'from-twelve-weeks' }));
    expect(statuses(from, '2026-03-25', '2026-03-26')).toEqual(['not-yet', 'due']);
  });
});

describe('fleas and mites', () => {
  test.each([
    ['every-month', '2026-03-15'],
    ['every-30-days', '2026-03-17'],
  ])('%s', (option, due) => {
    const of = ask('flea', { history: [given('topical-flea', '2026-02-15')] }, starterWith({ 'flea-again': option }));
    expect(of.on('2026-02-20').due).toBe(due);
  });

  it('ear mites once, or again 4 weeks later', () => {
    const about = { observations: [seen('ear-mites', '2026-03-01')], history: [given('ear-mite', '2026-03-01')] };
    expect(ask('ear-mite', about).on('2026-03-29').status).toBe('complete');
    const twice = ask('ear-mite', about, starterWith({ 'ear-mite-second': 'after-four-weeks' }));
    expect(statuses(twice, '2026-03-28', '2026-03-29')).toEqual(['not-yet', 'due']);
  });

  it('waits for the least age on a label, or of a standing order, Verifies: PROT-R25', () => {
    const [flea] = catalogueOf('topical-flea').products;
    const aged = (...weeks: number[]): Product[] =>
      flea === undefined ? [] : weeks.map((n) => ({ ...flea, labelMinAge: { weeks: n } }));
    const of = (catalogue: Catalogue) => ask('flea', {}, starter, catalogue);
    const eight = of({ products: aged(8), kits: [] });
    expect(eight.on('2026-02-25')).toMatchObject({
      status: 'on-hold',
      hold: { code: 'under-label-age', until: '2026-02-25' },
    });
    expect(eight.on('2026-02-26').hold).toBeNull();
    expect(of({ products: aged(9, 8), kits: [] }).on('2026-02-26').hold).toBeNull();
    const order = StandingOrder.parse({
      product: flea?.id,
      allows: 'below-label-age',
      minAge: { weeks: 4 },
      min_g: null,
      words: '',
      by: 'x',
      licence: 'x',
      until: '2026-01-31',
    });
    const ordered = (until: string, allows = order.allows) =>
      of({ products: aged(8), kits: [], standingOrders: [{ ...order, allows, until: day(until) }] });
    expect(ordered('2026-03-01').on('2026-01-28').hold).not.toBeNull();
    expect(ordered('2026-03-01').on('2026-01-29').hold).toBeNull();
    expect(ordered('2026-01-28').on('2026-01-29').hold).not.toBeNull();
    expect(ordered('2026-01-29').on('2026-01-29').hold).toBeNull();
    expect(ordered('2026-03-01', 'below-label-weight').on('2026-01-29').hold).not.toBeNull();
    expect(of({ products: [], kits: [] }).on('2026-01-10').hold).toBeNull();
  });
});

describe('a new chip, Verifies: PROT-R27', () => {
  const put = { ...chipped('2026-03-01'), implanted: true } as HistoryEvent;
  const scan = (
    on: string,
    occasion = 'recheck',
    code = '985112001234567',
    target: ChipScan['target'] = 'animal',
  ): ChipScan => ({
    record: RecordId.parse(`scan-${on}-${occasion}`),
    at: `${on}T10:00:00.000Z`,
    on: day(on),
    target,
    occasion,
    raw: code,
    code,
    round: null,
  });
  const about = (...scans: ChipScan[]): About => ({ history: [put], scans });

  it('is read again after 24 to 48 hours', () => {
    expect(
      statuses(
        ask('chip-recheck', about(scan('2026-03-01', 'after'))),
        '2026-03-01',
        '2026-03-02',
        '2026-03-03',
        '2026-03-04',
      ),
    ).toEqual(['not-yet', 'due', 'due', 'overdue']);
    expect(ask('chip-recheck', about(scan('2026-03-02', 'identify'))).on('2026-03-03').status).toBe('complete');
    expect(ask('chip-recheck', about(scan('2026-03-02', 'recheck', '900'))).on('2026-03-03').status).toBe('due');
    expect(ask('chip-recheck', about(scan('2026-03-02', 'recheck', undefined, 'pack'))).on('2026-03-03').status).toBe(
      'due',
    );
  });

  it('one that came with the animal is not', () => {
    expect(ask('chip-recheck', { history: [chipped('2026-03-01')] }).on('2026-03-03').status).toBe('not-recommended');
  });

  it('and before the animal leaves', () => {
    const leaving = { ...about(scan('2026-03-02')), observations: [seen('leaves-soon', '2026-04-01')] };
    expect(ask('chip-exit', leaving).on('2026-04-01').status).toBe('due');
    const then = (occasion: string) =>
      ask('chip-exit', { ...leaving, scans: [scan('2026-03-02'), scan('2026-04-01', occasion)] }).on('2026-04-02')
        .status;
    expect([then('exit'), then('recheck')]).toEqual(['complete', 'complete']);
    // To know the animal before a treatment is no check of the chip.
    expect([then('identify'), then('before')]).toEqual(['due', 'due']);
  });
});

describe('looks', () => {
  it('the lamp is for those under 6 months', () => {
    expect(ask('ringworm-lamp', { arrived: '2026-06-30' }).on('2026-06-30').status).toBe('due');
    expect(ask('ringworm-lamp', { arrived: '2026-07-01' }).on('2026-07-01').status).toBe('not-recommended');
    const done = { arrived: '2026-02-01', observations: [seen('ringworm-lamp', '2026-02-01', { state: 'absent' })] };
    expect(ask('ringworm-lamp', done).on('2026-02-02').status).toBe('complete');
  });

  it('readiness to be spayed or neutered waits for age, weight and health', () => {
    const grown = { weighings: [weight('2026-02-25', 907)] };
    expect(statuses(ask('neuter-check', grown), '2026-02-25', '2026-02-26')).toEqual(['not-yet', 'due']);
    expect(ask('neuter-check', { weighings: [weight('2026-02-25', 906)] }).on('2026-02-26').hold?.code).toBe(
      'under-weight',
    );
    expect(
      ask('neuter-check', { ...grown, observations: [seen('ill', '2026-02-25')] }).on('2026-02-26').hold?.code,
    ).toBe('ill');
    expect(ask('neuter-check', { ...grown, neutered: 'yes' }).on('2026-02-26').status).toBe('complete');
    expect(
      ask('neuter-check', { ...grown, observations: [seen('neuter-ready', '2026-02-26')] }).on('2026-02-27').status,
    ).toBe('complete');
    const notYet = { ...grown, observations: [seen('neuter-ready', '2026-02-26', { state: 'absent' })] };
    expect(ask('neuter-check', notYet).on('2026-02-27')).toMatchObject({ status: 'not-yet', due: '2026-03-12' });
  });
});

describe('twice a day in quarantine, Verifies: PROT-R33', () => {
  const check = (days: readonly string[], rank: SectionRank | null = 'quarantine') => {
    const observations = days.map((on, index) => ({
      ...seen('health-check', on),
      record: RecordId.parse(`look-${index}`),
    }));
    const input: ProtocolInput = { animal: cat({ arrived: '2026-03-01', observations }), formulary: null, rank };
    return {
      on: (today: string) => forecast(input, starter, day(today)).find((one) => one.schedule === 'health-check'),
      past: (today: string) => evaluate(input, starter, day(today)).filter((one) => one.schedule === 'health-check'),
    };
  };

  it('is done when it was done twice', () => {
    expect(check([]).on('2026-03-01')).toMatchObject({
      status: 'due',
      dose: 1,
      times: [
        { at: '08:00', state: 'open' },
        { at: '17:00', state: 'open' },
      ],
    });
    expect(check(['2026-03-01']).on('2026-03-01')).toMatchObject({
      status: 'due',
      due: '2026-03-01',
      dose: 2,
      because: { say: 'due.times' },
      times: [
        { at: '08:00', state: 'done' },
        { at: '17:00', state: 'open' },
      ],
    });
    expect(check(['2026-03-01', '2026-03-01']).on('2026-03-01')).toMatchObject({
      status: 'not-yet',
      due: '2026-03-02',
    });
  });

  it('half a day is late the next day, and a third look is extra', () => {
    expect(check(['2026-03-01']).on('2026-03-02')).toMatchObject({ status: 'overdue', due: '2026-03-01' });
    expect(check(['2026-03-01', '2026-03-02']).on('2026-03-02')).toMatchObject({ status: 'due', due: '2026-03-02' });
    expect(
      check(['2026-03-01', '2026-03-01', '2026-03-01'])
        .past('2026-03-01')
        .map((one) => one.status),
    ).toEqual(['valid', 'valid', 'extra']);
  });

  it('only there, Verifies: PROT-R24', () => {
    expect(check([], 'isolation').on('2026-03-01')?.status).toBe('due');
    for (const rank of ['clean-adults', null] as const) {
      expect(check([], rank).on('2026-03-01')).toMatchObject({
        status: 'not-recommended',
        because: { say: 'due.not-here' },
      });
    }
  });
});

describe('the variant for high risk, Verifies: PROT-R32', () => {
  it('changes its own values and nothing else', () => {
    const risky = withVariant(starter, 'high-risk');
    if (risky === null) throw new Error('no variant');
    expect(ask('core-vaccine', {}, risky).on('2026-01-01').due).toBe('2026-01-15');
    expect(ask('core-vaccine').on('2026-01-01').due).toBe('2026-01-29');
    expect({ ...risky, schedules: [], choices: [] }).toEqual({ ...starter, schedules: [], choices: [] });
    expect(
      risky.schedules
        .filter((one, at) => JSON.stringify(one) !== JSON.stringify(starter.schedules[at]))
        .map((one) => one.id),
    ).toEqual(['core-vaccine']);
    expect(withVariant(starter, 'high-risk')).toBe(risky);
  });

  it('is null when there is none of that name, or it does not fit', () => {
    expect(withVariant(starter, 'nothing')).toBeNull();
    const [variant] = starter.variants;
    const bad = {
      ...starter,
      variants: [{ ...variant, values: [{ at: ['schedules', 'flea', 'visitOrder'], value: 'x' }] }],
    } as ProtocolDocument;
    expect(withVariant(bad, 'high-risk')).toBeNull();
  });
});

describe('the test in the hand, Verifies: PROT-R36', () => {
  it('is the one that takes the blood the protocol prefers', () => {
    const kit = (id: string, ...samples: string[]) => ({ id, tests: ['felv-antigen'], samples });
    const kits = {
      products: [],
      kits: [kit('plasma-kit', 'plasma'), kit('blood-kit', 'serum', 'whole-blood')],
    } as unknown as Catalogue;
    expect(ask('felv-test', {}, starter, kits).on('2026-02-10').kitTypes).toEqual(['blood-kit', 'plasma-kit']);
    const older = starterWith({ 'felv-sample': 'plasma-or-serum' });
    expect(ask('felv-test', {}, older, kits).on('2026-02-10').kitTypes).toEqual(['plasma-kit', 'blood-kit']);
  });

  test.each([
    ['second-antigen', 'due.reactive.confirm', null],
    ['quantitative-pcr', 'due.reactive.confirm', null],
    ['immunofluorescence', 'due.reactive.confirm-from', '2026-03-27'],
  ])('a reactive one is confirmed by %s', (option, key, from) => {
    const of = ask(
      'felv-test',
      { history: [tested('reactive', '2026-02-10')] },
      starterWith({ 'felv-confirm': option }),
    );
    const { because } = of.on('2026-02-11');
    expect(because.say).toBe(key);
    expect((because.with?.date as { date?: string } | undefined)?.date ?? null).toBe(from);
  });
});
