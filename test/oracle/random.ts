import fc from 'fast-check';
import type { HistoryEvent } from '../../src/core/animal/animal.js';
import { sectionRanks } from '../../src/core/biosecurity/section.js';
import { Product } from '../../src/core/dosing/formulary.js';
import { RecordId } from '../../src/core/ids.js';
import { ProtocolDocument } from '../../src/core/protocol/document/document.js';
import {
  cat,
  catalogueOf,
  chipped,
  day,
  given,
  placedHold,
  seen,
  tested,
  weighed,
  weight,
} from '../support/protocol.js';
import { textOf } from './days.js';

/** Random protocols and animals, tidy and untidy, small enough that two of them often meet at a limit. */
const from = 20_454; // 1 January 2026
const grounds = { source: 'test-source', standing: 'read' } as const;
/** `one` in so many of 10 cases, else nothing. */
const maybe = <T>(one: fc.Arbitrary<T>, often = 3): fc.Arbitrary<T | undefined> =>
  fc.oneof({ arbitrary: one, weight: often * 2 }, { arbitrary: fc.constant(undefined), weight: 20 - often * 2 });
const orNull = <T>(one: fc.Arbitrary<T>, often = 2): fc.Arbitrary<T | null> =>
  fc.oneof({ arbitrary: one, weight: often * 2 }, { arbitrary: fc.constant(null), weight: 20 - often * 2 });
const between = (min: number, max: number): fc.Arbitrary<string> =>
  fc.integer({ min, max }).map((offset) => textOf(from + offset));
/** Nearly always possible, now and then before birth or after today. */
const dates = fc.oneof(
  { arbitrary: between(10, 160), weight: 8 },
  { arbitrary: between(10, 320), weight: 6 },
  { arbitrary: between(-40, 500), weight: 1 },
);

const span = fc.oneof(
  { arbitrary: fc.integer({ min: 0, max: 45 }).map((days) => ({ days })), weight: 4 },
  { arbitrary: fc.integer({ min: 1, max: 20 }).map((weeks) => ({ weeks })), weight: 4 },
  { arbitrary: fc.integer({ min: 1, max: 8 }).map((months) => ({ months })), weight: 3 },
  {
    arbitrary: fc.record({ months: fc.integer({ min: 1, max: 4 }), days: fc.integer({ min: -4, max: 4 }) }),
    weight: 1,
  },
  { arbitrary: fc.constant({ years: 1 }), weight: 1 },
);
/** Lengths of least ages and distances: short, so that much of a history counts. */
const short = fc.oneof(
  { arbitrary: fc.integer({ min: 0, max: 30 }).map((days) => ({ days })), weight: 4 },
  { arbitrary: fc.integer({ min: 1, max: 5 }).map((weeks) => ({ weeks })), weight: 3 },
  { arbitrary: fc.constant({ months: 1 }), weight: 1 },
);
const shortSpan = short.map((one) => ({ span: one, ...grounds }));
const shortAge = fc
  .record({ span: short, of: fc.constantFrom('youngest', 'youngest', 'oldest') })
  .map((one) => ({ ...one, ...grounds }));
const sourcedSpan = span.map((one) => ({ span: one, ...grounds }));
const sourcedAge = fc
  .record({ span, of: fc.constantFrom('youngest', 'youngest', 'oldest') })
  .map((one) => ({ ...one, ...grounds }));

const clean = <T extends object>(value: T): object =>
  Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));
const limits = (least: fc.Arbitrary<object>, most: fc.Arbitrary<object>, withMaximum: boolean) =>
  fc
    .record({
      absoluteMinimum: maybe(least, 2),
      minimum: maybe(least, 6),
      earliestRecommended: maybe(most, 3),
      latestRecommended: maybe(most, 4),
      maximum: withMaximum ? maybe(most, 1) : fc.constant(undefined),
    })
    .map(clean);

const codes = fc.constantFrom('sign-a', 'sign-b', 'hold-a');
/** Only schedules that stand before, so that nothing waits for itself in a ring. */
const earlier = (at: number): fc.Arbitrary<string> =>
  fc.integer({ min: 0, max: Math.max(0, at - 1) }).map((n) => `s${n}`);

const intervalStart = (at: number) =>
  fc.oneof(
    { arbitrary: fc.constant({ is: 'previous' }), weight: 6 },
    { arbitrary: fc.integer({ min: 1, max: 3 }).map((number) => ({ is: 'dose', number })), weight: 1 },
    { arbitrary: fc.constant({ is: 'arrival' }), weight: 2 },
    { arbitrary: codes.map((code) => ({ is: 'observation', code })), weight: 2 },
    { arbitrary: fc.constant({ is: 'implant' }), weight: 1 },
    ...(at === 0 ? [] : [{ arbitrary: earlier(at).map((schedule) => ({ is: 'schedule', schedule })), weight: 1 }]),
  );
const condition = (at: number) =>
  fc.oneof(
    codes.map((code) => ({ is: 'observed', code })),
    fc
      .record({ is: fc.constant('doses'), atLeast: fc.integer({ min: 1, max: 2 }), from: maybe(sourcedAge) })
      .map(clean),
    fc.record({ is: fc.constant('age'), from: maybe(sourcedAge), under: maybe(sourcedAge) }).map(clean),
    fc.constantFrom('yes', 'no', 'unknown').map((state) => ({ is: 'neutered', state })),
    fc.constantFrom('negative', 'reactive').map((result) => ({ is: 'result', schedule: `s${at}`, result })),
    ...(at === 0
      ? []
      : [
          earlier(at).map((schedule) => ({ is: 'complete', schedule })),
          earlier(at).map((schedule) => ({ is: 'result', schedule, result: 'negative' })),
        ]),
  );
const trigger = fc.oneof(
  { arbitrary: fc.constant({ is: 'age' }), weight: 8 },
  { arbitrary: fc.constant({ is: 'arrival' }), weight: 10 },
  {
    arbitrary: fc.record({ is: fc.constant('observation'), code: codes, or: fc.array(codes, { maxLength: 1 }) }),
    weight: 2,
  },
  { arbitrary: codes.map((code) => ({ is: 'while', code })), weight: 1 },
  { arbitrary: codes.map((code) => ({ is: 'clock', code })), weight: 2 },
  { arbitrary: fc.constant({ is: 'implant' }), weight: 1 },
);
const repeats = fc.record({
  until: orNull(sourcedAge, 5),
  ends: fc.constantFrom('with-a-dose-at-or-after', 'before'),
});
const target = (at: number, number: number) =>
  fc
    .record({
      on: trigger,
      repeats: orNull(repeats, 5),
      upkeep: fc.boolean().map((one) => one && number > 0),
      times: fc.constantFrom([], [], [], [], ['08:00', '17:00']),
      age: limits(shortAge, sourcedAge, true),
      intervals: fc.array(
        fc
          .tuple(intervalStart(at), limits(shortSpan, sourcedSpan, false))
          .map(([start, rest]) => ({ from: start, ...rest })),
        { maxLength: 3 },
      ),
      skip: fc.array(
        fc.array(condition(at), { minLength: 1, maxLength: 2 }).map((all) => ({ all, words: 'left out', ...grounds })),
        { maxLength: 1 },
      ),
      restartAfter: orNull(sourcedSpan, 1),
    })
    .map((one) => ({ id: `t${number}`, ...one }));
const series = (at: number, number: number) =>
  fc
    .record({
      start: fc
        .record({
          from: maybe(shortAge, 1),
          under: maybe(sourcedAge, 2),
          when: maybe(condition(at), 1).map((one) => (one === undefined ? [] : [one])),
        })
        .map(clean),
      targets: fc
        .integer({ min: 1, max: 3 })
        .chain((n) => fc.tuple(...Array.from({ length: n }, (_, index) => target(at, index)))),
      again: orNull(codes, 2),
    })
    .map((one) => ({ id: `way${number}`, name: 'Way', ...one }));

const holdRule = (at: number, number: number) =>
  fc
    .record({
      when: fc.oneof(
        codes.map((code) => ({ is: 'observation', code })),
        fc.constantFrom('reactive', 'negative').map((result) => ({ is: 'result', of: `s${at}`, result })),
      ),
      concerns: fc
        .record({
          sex: maybe(fc.constantFrom('female', 'male')),
          unneutered: maybe(fc.boolean()),
          from: maybe(sourcedAge),
        })
        .map(clean),
      present: fc.constantFrom('hold', 'hold', 'show'),
      unknown: fc.constantFrom('go-on', 'go-on', 'ask', 'hold'),
      lasts: orNull(sourcedSpan, 3),
    })
    .map((one) => ({ id: number === 0 ? 'hold-a' : `hold-${number}`, words: 'held', ...one, ...grounds }));

const classes = fc.constantFrom('class-a', 'class-b', 'class-c');
const apart = fc.record({
  begins: fc.integer({ min: 0, max: 3 }).map((days) => ({ days })),
  ends: fc.integer({ min: 1, max: 28 }).map((days) => ({ days })),
});
const schedule = (at: number) =>
  fc
    .record({
      action: fc.constantFrom('give', 'give', 'give', 'test', 'test', 'look', 'chip', 'weigh'),
      active: fc.constantFrom(true, true, true, true, false),
      where: orNull(
        fc.subarray([...sectionRanks], { minLength: 1 }).map((ranks) => ({ ranks, ...grounds })),
        0.5,
      ),
      wanted: fc.subarray(['class-a', 'class-b', 'class-c'], { minLength: 1, maxLength: 2 }),
      looks: fc.constantFrom(['sign-a'], ['look-a'], ['look-a', 'sign-b'], ['chip-read']),
      recordedOnly: fc.array(
        fc.record({ class: classes, spaces: fc.boolean() }).map((one) => ({ ...one, ...grounds })),
        { maxLength: 1 },
      ),
      series: fc.oneof(
        { arbitrary: fc.tuple(series(at, 0)), weight: 3 },
        { arbitrary: fc.tuple(series(at, 0), series(at, 1)), weight: 2 },
      ),
      holds: fc.oneof(fc.constant([]), fc.tuple(holdRule(at, 0)), fc.tuple(holdRule(at, 0), holdRule(at, 1))),
      needsFirst:
        at === 0
          ? fc.constant([])
          : fc.array(
              fc
                .record({ schedule: earlier(at), result: fc.constantFrom('negative', 'any') })
                .map((one) => ({ ...one, ...grounds })),
              {
                maxLength: 1,
              },
            ),
      apart: fc.array(
        fc.tuple(classes, apart).map(([name, one]) => ({ class: name, ...one, ...grounds })),
        { maxLength: 1 },
      ),
      apartIngredients: fc.array(
        fc.tuple(classes, apart).map(([name, one]) => ({ ingredient: `${name}-plus`, ...one, ...grounds })),
        {
          maxLength: 1,
        },
      ),
      minimumWeight: orNull(fc.constant({ grams: 700, ...grounds }), 2),
      labelAge: fc.constantFrom('leave', 'leave', 'hold'),
    })
    .map(({ wanted, looks, ...one }) => ({
      id: `s${at}`,
      name: `Schedule ${at}`,
      visitOrder: at,
      satisfiedBy: one.action === 'look' ? looks : wanted,
      ...one,
    }));

export const documents = fc
  .integer({ min: 1, max: 3 })
  .chain((count) =>
    fc.tuple(fc.tuple(...Array.from({ length: count }, (_, at) => schedule(at))), fc.constantFrom('hold', 'ask')),
  )
  .map(([schedules, ageUnknown]) =>
    ProtocolDocument.parse({
      id: 'random',
      version: '1',
      title: 'A random protocol',
      caution: 'For tests only.',
      sources: [{ id: 'test-source', title: 'None' }],
      ageUnknown,
      schedules,
    }),
  );

const plain = catalogueOf('class-a', 'class-b', 'class-c', 'class-a+class-b', 'other');
export const catalogues = fc
  .array(orNull(fc.integer({ min: 1, max: 30 }), 7), { minLength: 5, maxLength: 5 })
  .map((weeks) => ({
    kits: [],
    products: plain.products.map((one, at): Product => {
      const label = weeks[at] ?? null;
      const ingredients = one.classes.map((name) => ({ name: `${name}-plus`, counted: 'base', mg_per_ml: null }));
      return Product.parse({ ...one, ingredients, labelMinAge: label === null ? null : { weeks: label } });
    }),
  }));

const ids = fc.constantFrom('s0', 's1', 's2');
const products = fc.constantFrom(
  'class-a',
  'class-a',
  'class-a',
  'class-b',
  'class-b',
  'class-c',
  'class-a-and-class-b',
  'other',
  'nobody-knows',
);
const faults = fc.constantFrom(
  undefined,
  undefined,
  undefined,
  undefined,
  undefined,
  undefined,
  undefined,
  undefined,
  undefined,
  'expired-lot',
  'withdrawn-lot',
  'not-taken',
) as fc.Arbitrary<'expired-lot' | 'withdrawn-lot' | 'not-taken' | undefined>;
const results = fc.constantFrom(
  'negative',
  'negative',
  'reactive',
  'invalid',
  'not-valid',
  'abandoned',
  'running',
) as fc.Arbitrary<Parameters<typeof tested>[0]>;
const event: fc.Arbitrary<HistoryEvent> = fc.oneof(
  {
    arbitrary: fc
      .tuple(products, dates, orNull(ids, 5), faults)
      .map(([product, on, of, bad]) =>
        given(product, on, { schedule: of, ...(bad === undefined ? {} : { substandard: bad }) }),
      ),
    weight: 6,
  },
  { arbitrary: fc.tuple(results, dates, ids).map(([result, on, of]) => tested(result, on, of)), weight: 3 },
  {
    arbitrary: fc
      .tuple(dates, fc.boolean(), fc.boolean())
      .map(
        ([on, confirmed, implanted]) =>
          ({ ...chipped(on, confirmed), ...(implanted ? { implanted } : {}) }) as HistoryEvent,
      ),
    weight: 1,
  },
  { arbitrary: dates.map((on) => weighed(on)), weight: 1 },
);
const observation = fc
  .tuple(
    fc.constantFrom('sign-a', 'sign-b', 'hold-a', 'look-a'),
    dates,
    fc.constantFrom('present' as const, 'present' as const, 'absent' as const),
    maybe(dates, 2),
  )
  .map(([code, on, state, until]) => seen(code, on, { state, ...(until === undefined ? {} : { until }) }));
const scan = fc
  .tuple(dates, fc.constantFrom('after', 'identify', 'recheck', 'exit'), fc.boolean())
  .map(([on, occasion, own]) => ({
    at: `${on}T10:00:00Z`,
    on: day(on),
    target: 'animal' as const,
    occasion,
    code: own ? '985112001234567' : 'other',
    raw: '',
    round: null,
  }));

/** Some events happen on the day of the one before, an hour after it or at the same minute. */
function sameDays(events: readonly (readonly [HistoryEvent, boolean])[]): HistoryEvent[] {
  return events.map(([one, same], at) => {
    const before = events[at - 1]?.[0];
    return same && before !== undefined
      ? { ...one, on: before.on, at: `${before.on}T${at % 2 === 0 ? '09' : '10'}:00:00Z` }
      : one;
  });
}

const numbered = <T extends object>(list: readonly T[], name: string): (T & { record: RecordId })[] =>
  list.map((one, at) => ({ ...one, record: RecordId.parse(`${name}${String(at).padStart(2, '0')}`) }));

export const animals = fc
  .record({
    born: between(-20, 60),
    guess: fc.oneof(fc.constant(0), fc.nat(30)),
    basis: fc.constantFrom(undefined, undefined, undefined, 'unknown' as const),
    arrived: between(0, 150),
    sex: fc.constantFrom('female' as const, 'male' as const, 'unknown' as const),
    neutered: fc.constantFrom('yes' as const, 'no' as const, 'unknown' as const),
    history: fc.array(fc.tuple(event, fc.constantFrom(false, false, false, true)), {
      minLength: 1,
      maxLength: 14,
      size: 'max',
    }),
    observations: fc.array(observation, { maxLength: 6, size: 'max' }),
    scans: fc.array(scan, { maxLength: 3 }),
    holds: fc.array(
      fc
        .tuple(dates, orNull(dates, 6), orNull(ids, 5))
        .map(([begins, ends, of]) => placedHold(begins, ends, of === null ? 'all' : [of])),
      { maxLength: 2 },
    ),
    weighings: fc.array(
      fc
        .tuple(dates, fc.constantFrom(600, 699, 700, 900), fc.boolean())
        .map(([on, grams, doubtful]) => weight(on, grams, doubtful)),
      {
        maxLength: 2,
      },
    ),
  })
  .map(({ guess, born, basis, history, observations, scans, ...rest }) =>
    cat({
      ...rest,
      born,
      bornFrom: textOf(Date.parse(`${born}T00:00:00Z`) / 86_400_000 - guess),
      ...(basis === undefined ? {} : { basis }),
      history: numbered(sameDays(history), 'e'),
      observations: numbered(observations, 'o'),
      scans: numbered(scans, 'c'),
    }),
  );

export const ranks = fc.constantFrom(null, ...sectionRanks);
export const todays = fc.oneof(
  { arbitrary: between(100, 330), weight: 9 },
  { arbitrary: between(-30, 900), weight: 1 },
);
