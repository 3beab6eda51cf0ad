import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import {
  cat,
  chipped,
  day,
  given,
  placedHold,
  seen,
  starter,
  starterProducts,
  starterWith,
  tested,
  weighed,
  weight,
} from '../../../../test/support/protocol.js';
import type { HistoryEvent } from '../../animal/animal.js';
import { addDays, addSpan, type CalendarDate, dayFromNumber, dayNumber, maximum } from '../../calendar.js';
import { grown } from '../../derived.js';
import { RecordId } from '../../ids.js';
import type { Evaluated } from '../evaluated.js';
import type { ProtocolInput } from '../input.js';
import { evaluate, evaluatedEarly } from './evaluate.js';
import { forecast, forecastOf } from './forecast.js';
import { inOrderOf, seenBy, sightOf } from './sight.js';

/** Any history at all, tidy or not: out of order, twice on a day, in the future, before birth. */
const from = dayNumber(day('2025-10-01'));
const dates = fc.integer({ min: 0, max: 420 }).map((offset) => dayFromNumber(from + offset));
const substandard = fc.constantFrom(undefined, undefined, undefined, 'expired-lot', 'withdrawn-lot', 'not-taken');
const products = fc.constantFrom(
  'core-vaccine-live',
  'core-vaccine-live',
  'core-vaccine-inactivated',
  'roundworm',
  'topical-flea',
  'nobody-knows',
);
const schedules = fc.constantFrom(null, 'core-vaccine', 'roundworm', 'flea', 'chip', 'nowhere');
const treatment = fc
  .tuple(products, dates, schedules, substandard)
  .map(([product, on, schedule, bad]) =>
    given(product, on, { schedule, ...(bad === undefined ? {} : { substandard: bad }) }),
  );
const results = fc.constantFrom('negative', 'reactive', 'invalid', 'not-valid', 'abandoned', 'running') as fc.Arbitrary<
  Parameters<typeof tested>[0]
>;
const event: fc.Arbitrary<HistoryEvent> = fc.oneof(
  { arbitrary: treatment, weight: 6 },
  { arbitrary: fc.tuple(results, dates).map(([result, on]) => tested(result, on)), weight: 2 },
  { arbitrary: fc.tuple(dates, fc.boolean()).map(([on, confirmed]) => chipped(on, confirmed)), weight: 1 },
  { arbitrary: dates.map((on) => weighed(on)), weight: 2 },
);
const histories = fc
  .array(event, { maxLength: 14 })
  .map((events) =>
    events.map((one, index) => ({ ...one, record: RecordId.parse(`r${String(index).padStart(2, '0')}`) })),
  );
const codes = fc.constantFrom(
  ...['pregnant', 'nursing', 'fever', 'ill', 'fleas', 'felv-reactive', 'unheard-of', 'thin', 'convalescent', 'weak'],
);
const observations = fc.array(
  fc
    .tuple(codes, dates, fc.constantFrom('present' as const, 'absent' as const))
    .map(([code, on, state]) => seen(code, on, { state })),
  { maxLength: 5 },
);
const holds = fc.array(
  fc.tuple(dates, fc.option(dates)).map(([begins, ends]) => placedHold(begins, ends)),
  { maxLength: 2 },
);

const animals = fc
  .record({
    born: dates,
    guess: fc.nat(40),
    arrived: dates,
    sex: fc.constantFrom('female' as const, 'male' as const, 'unknown' as const),
    neutered: fc.constantFrom('yes' as const, 'no' as const, 'unknown' as const),
    history: histories,
    observations,
    holds,
    weighings: fc.array(
      fc.tuple(dates, fc.constantFrom(300, 700, 1500)).map(([on, grams]) => weight(on, grams)),
      { maxLength: 3 },
    ),
  })
  .map(({ guess, born, ...rest }) => cat({ ...rest, born, bornFrom: addDays(born, -guess) }));

const sixteen = starterWith({ 'core-vaccine-end': 'sixteen-weeks', 'core-vaccine-interval': 'two-to-three-weeks' });
const protocols = { starter, sixteen };
const named = fc.constantFrom('starter' as const, 'sixteen' as const);
const inputOf = (animal: ProtocolInput['animal']): ProtocolInput => ({ animal, formulary: starterProducts });

const reallyGiven = (animal: ProtocolInput['animal'], product: string, today: CalendarDate): CalendarDate[] =>
  animal.history
    .filter((one) => one.what === 'given' && one.product === product && one.substandard !== 'not-taken')
    .map((one) => one.on)
    .filter((on) => on <= today && on >= animal.born.earliest)
    .sort();

describe('on any history, Verifies: PROT-R3, PROT-R21', () => {
  it('evaluation and forecast answer, once for each thing done and for each schedule', () => {
    fc.assert(
      fc.property(animals, named, dates, (animal, name, today) => {
        const protocol = protocols[name];
        const judged = evaluate(inputOf(animal), protocol, today).map((one) => `${one.schedule} ${one.record}`);
        expect(new Set(judged).size).toBe(judged.length);
        const items = forecast(inputOf(animal), protocol, today);
        expect(items.map((item) => item.schedule)).toEqual(protocol.schedules.map((schedule) => schedule.id));
      }),
      { numRuns: 400 },
    );
  });

  it('no forecast is before its minimum interval or its minimum age', () => {
    fc.assert(
      fc.property(animals, named, dates, (animal, name, today) => {
        const protocol = protocols[name];
        for (const item of forecast(inputOf(animal), protocol, today)) {
          if (item.earliest === null) continue;
          expect(item.earliest >= animal.born.earliest).toBe(true);
          if (item.due !== null) expect(item.due >= item.earliest).toBe(true);
          if (item.due !== null && item.overdueAfter !== null) expect(item.overdueAfter >= item.due).toBe(true);
          const product = { 'core-vaccine': 'core-vaccine-live', roundworm: 'roundworm' }[item.schedule as string];
          const last = product === undefined ? undefined : reallyGiven(animal, product, today).at(-1);
          if (last !== undefined) expect(item.earliest >= addSpan(last, { weeks: 2 })).toBe(true);
          const flea = item.schedule === 'flea' ? reallyGiven(animal, 'topical-flea', today).at(-1) : undefined;
          if (flea !== undefined && item.dose > 1) expect(item.earliest >= addSpan(flea, { weeks: 4 })).toBe(true);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('done on its due day, nothing of the schedule is listed for that day any more', () => {
    const done: Readonly<Record<string, (on: string) => HistoryEvent>> = {
      'core-vaccine': (on) => given('core-vaccine-live', on, { time: '20:00' }),
      roundworm: (on) => given('roundworm', on, { time: '20:00' }),
      flea: (on) => given('topical-flea', on, { time: '20:00' }),
      'felv-test': (on) => tested('negative', on, 'felv-test', '20:00'),
      weighing: (on) => ({ ...weighed(on), at: `${on}T20:00:00Z` }),
    };
    fc.assert(
      fc.property(animals, named, dates, (animal, name, today) => {
        const protocol = protocols[name];
        for (const item of forecast(inputOf(animal), protocol, today)) {
          const make = done[item.schedule];
          // A further test of the same kind does not settle a reactive one.
          if (item.due === null || make === undefined || item.status === 'to-confirm') continue;
          const on = maximum(item.due, today);
          // What is dated ahead of that day would count on it: leave it out, it has not happened.
          const past = animal.history.filter((one) => one.on <= today);
          const after = { ...animal, history: [...past, make(on)] };
          const next = forecast(inputOf(after), protocol, on).find((one) => one.schedule === item.schedule);
          expect(next?.due == null || next.due > on, JSON.stringify([item.because, next?.because])).toBe(true);
          expect(next?.status === 'due' || next?.status === 'overdue').toBe(false);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('the order of the records does not matter', () => {
    fc.assert(
      fc.property(animals, dates, fc.integer(), (animal, today, seed) => {
        const shuffled = [...animal.history].sort((a, b) => hash(a.record, seed) - hash(b.record, seed));
        const other = { ...animal, history: shuffled };
        expect(forecast(inputOf(other), starter, today)).toEqual(forecast(inputOf(animal), starter, today));
        expect(evaluate(inputOf(other), starter, today)).toEqual(evaluate(inputOf(animal), starter, today));
      }),
    );
  });

  it('what is dated after today changes nothing', () => {
    fc.assert(
      fc.property(animals, dates, (animal, today) => {
        const past = { ...animal, history: animal.history.filter((one) => one.on <= today) };
        const chips = (one: HistoryEvent): boolean => one.what === 'chipped';
        fc.pre(!animal.history.some(chips));
        expect(forecast(inputOf(animal), starter, today)).toEqual(forecast(inputOf(past), starter, today));
      }),
    );
  });

  it('the number of the next dose is the number of valid doses and one', () => {
    fc.assert(
      fc.property(animals, dates, (animal, today) => {
        const valid = evaluate(inputOf(animal), starter, today).filter((one) => one.status === 'valid');
        for (const item of forecast(inputOf(animal), starter, today)) {
          if (item.action === 'chip') continue;
          if (item.status === 'not-recommended' && item.schedule !== 'flea') continue;
          expect(item.dose).toBe(valid.filter((one) => one.schedule === item.schedule).length + 1);
        }
      }),
    );
  });
});

const hash = (text: string, seed: number): number => {
  let value = seed | 0;
  for (let at = 0; at < text.length; at += 1) value = Math.imul(value ^ text.charCodeAt(at), 16777619);
  return value;
};

/** With the conditions of its products, by weight and by what was noted, too. */
const { products: labelled, kits } = starterFormulary();
const formulary = { products: [...starterProducts.products, ...labelled], kits };

describe('what schedules do not look at (Verifies: LOG-R165)', () => {
  it('left out, changes nothing of what they say', () => {
    let apart = 0;
    fc.assert(
      fc.property(animals, named, dates, (animal, name, today) => {
        const protocol = protocols[name];
        const input = { ...inputOf(animal), formulary };
        const { weighed: by, unweighed: others } = sightOf(protocol, formulary);
        const [all, fewer] = [true, false].map((byWeight) => seenBy(protocol, input, byWeight)) as [
          ProtocolInput,
          ProtocolInput,
        ];
        if (fewer.animal.history.length < animal.history.length) apart += 1;
        expect(all.animal.observations.some(({ code }) => code === 'unheard-of')).toBe(false);
        const items = [...forecastOf(all, protocol, by, today), ...forecastOf(fewer, protocol, others, today)];
        expect(inOrderOf(protocol, items)).toEqual(forecast(input, protocol, today));
        const early = [...evaluatedEarly(all, protocol, by, today), ...evaluatedEarly(fewer, protocol, others, today)];
        const isEarly = (one: Evaluated) => one.status === 'not-valid' && one.validFrom !== null;
        expect(inOrderOf(protocol, early)).toEqual(evaluate(input, protocol, today).filter(isEarly));
      }),
      { numRuns: 200 },
    );
    expect(apart).toBeGreaterThan(0);
  });

  it('is the same object, whatever comes of that', () => {
    const [before, more] = [given('roundworm', '2026-02-01'), weighed('2026-02-10')];
    const own = [before];
    const history = grown(own, [more], [before, more]) as typeof own;
    const animal = cat({ history: own });
    const see = (history: typeof own, observations: ReturnType<typeof cat>['observations']) =>
      seenBy(starter, inputOf({ ...animal, history, observations }), false);
    const first = see(own, animal.observations);
    const noted = seen('unheard-of', '2026-02-10', { state: 'present' });
    const observed = grown(animal.observations, [noted], [...animal.observations, noted]) as typeof animal.observations;
    expect(see(history, observed)).toBe(first);
    expect(see([...own], animal.observations)).not.toBe(first);
    const fever = seen('fever', '2026-02-10', { state: 'present' });
    expect(see(own, grown(observed, [fever], [...observed, fever]) as typeof observed)).not.toBe(first);
  });
});
