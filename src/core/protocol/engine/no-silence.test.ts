import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cat,
  chipped,
  day,
  given,
  placedHold,
  seen,
  starter,
  starterProducts,
  tested,
  weighed,
} from '../../../../test/support/protocol.js';
import type { HistoryEvent } from '../../animal/animal.js';
import { addDays, addSpan, type CalendarDate, dayFromNumber, dayNumber } from '../../calendar.js';
import { RecordId } from '../../ids.js';
import { codesOf, type Schedule } from '../document/document.js';
import type { DueItem } from '../due.js';
import { heldLongFrom } from '../held-long.js';
import { forecast } from './forecast.js';

/*
 * No series of an animal in care ends in silence: each has a day that comes next, an end that is named, or people who
 * are asked. And what calls for it anew opens it again, whatever was done before.
 */

const from = dayNumber(day('2025-10-01'));
const dates = fc.integer({ min: 0, max: 420 }).map((offset) => dayFromNumber(from + offset));
const products = fc.constantFrom(...starterProducts.products.map(({ id }) => id as string));
const tests = ['felv-test', 'fiv-test'] as const;
const event: fc.Arbitrary<HistoryEvent> = fc.oneof(
  { arbitrary: fc.tuple(products, dates).map(([product, on]) => given(product, on)), weight: 6 },
  {
    arbitrary: fc
      .tuple(
        fc.constantFrom('negative' as const, 'reactive' as const, 'invalid' as const),
        dates,
        fc.constantFrom(...tests),
      )
      .map(([result, on, of]) => tested(result, on, of)),
    weight: 3,
  },
  { arbitrary: fc.tuple(dates, fc.boolean()).map(([on, confirmed]) => chipped(on, confirmed)), weight: 1 },
  { arbitrary: dates.map((on) => weighed(on)), weight: 1 },
);
const histories = fc
  .array(event, { maxLength: 16 })
  .map((events) => events.map((one, at) => ({ ...one, record: RecordId.parse(`r${String(at).padStart(2, '0')}`) })));

const codes = [
  ...new Set(
    starter.schedules.flatMap(({ series }) =>
      series.flatMap(({ targets }) => targets.flatMap(({ on }) => codesOf(on))),
    ),
  ),
];
/** What calls for a schedule anew, however often it was done: not what only says that an animal is one to be tested once. */
const anew = (schedule: Schedule): string[] =>
  schedule.series.flatMap(({ again, targets }) => [
    ...(again === null ? [] : [again]),
    ...targets.flatMap(({ on, repeats }) => (on.is === 'observation' && repeats === null ? [] : codesOf(on))),
  ]);
const observations = fc.array(
  fc
    .tuple(
      fc.constantFrom(...codes, 'ill', 'pregnant', 'fever'),
      dates,
      fc.constantFrom('present' as const, 'absent' as const),
    )
    .map(([code, on, state]) => seen(code, on, { state })),
  { maxLength: 6 },
);
const holds = fc.array(
  fc.tuple(dates, fc.option(dates)).map(([begins, ends]) => placedHold(begins, ends)),
  { maxLength: 1 },
);
const animals = fc
  .record({
    born: dates,
    arrived: dates,
    sex: fc.constantFrom('female' as const, 'male' as const, 'unknown' as const),
    neutered: fc.constantFrom('yes' as const, 'no' as const, 'unknown' as const),
    history: histories,
    observations,
    holds,
  })
  .map((about) => cat(about));

/** Sentences that say that something is over, was never called for, or waits for a need; and nothing else. */
const ends = [
  'due.aged-out',
  'due.complete',
  'due.complete.chip',
  'due.complete.not-needed',
  'due.complete.once',
  'due.complete.series',
  'due.complete.next',
  'due.not-here',
  'due.not-recommended',
  'due.on-need',
  'due.on-need.again',
];

/** What becomes of it, in one word; `silent` where nobody would ever hear of it again. */
function fate(item: DueItem, today: CalendarDate): 'day' | 'end' | 'asked' | 'silent' {
  switch (item.status) {
    case 'due':
    case 'overdue':
    case 'not-yet':
      return item.due === null ? 'silent' : 'day';
    case 'when-needed':
    case 'to-confirm':
    case 'ended-missed':
      return 'asked';
    case 'on-hold': {
      if (item.hold?.until != null && item.hold.until >= today) return 'day';
      // People are asked about what has no end (log/flags/hold-flags.ts).
      return heldLongFrom(item, starter) === null ? 'silent' : 'asked';
    }
    case 'complete':
    case 'aged-out':
    case 'not-recommended':
      return ends.includes(item.because.say) ? 'end' : 'silent';
  }
}

const of = (animal: ReturnType<typeof cat>, today: CalendarDate) =>
  forecast({ animal, formulary: starterProducts }, starter, today);

describe('no series ends in silence (Verifies: PROT-R61)', () => {
  it('each has a day, a named end, or people who are asked, on any history', () => {
    const met = new Set<string>();
    fc.assert(
      fc.property(animals, dates, (animal, today) => {
        for (const item of of(animal, today)) {
          const what = fate(item, today);
          met.add(what);
          expect(what, `${item.schedule} ${item.status}: ${item.because.say}`).not.toBe('silent');
        }
      }),
      { numRuns: 500 },
    );
    expect([...met].sort()).toEqual(['asked', 'day', 'end']);
  });

  it('what is seen after the last one opens it again, whatever was done before', () => {
    let opened = 0;
    fc.assert(
      fc.property(animals, dates, fc.constantFrom(...starter.schedules.flatMap(anew)), (animal, today, code) => {
        const past = animal.history.filter(({ on }) => on < today);
        const seenToday = { ...animal, history: past, observations: [...animal.observations, seen(code, today)] };
        for (const item of of(seenToday, today)) {
          const schedule = starter.schedules.find(({ id }) => id === item.schedule);
          if (schedule === undefined || !anew(schedule).includes(code)) continue;
          // Not where it is, or not at its age or weight: no series of it is for this animal.
          if (item.status === 'aged-out' || ['due.not-here', 'due.not-recommended'].includes(item.because.say))
            continue;
          // A clock counts from the exposure; a reactive test waits for another method and is not repeated.
          if (item.confirm !== undefined) continue;
          opened += 1;
          const next = `${item.schedule} on ${code}: ${item.status}, ${item.because.say}`;
          expect(item.status === 'complete' && item.due === null, next).toBe(false);
          expect(item.status, next).not.toBe('not-recommended');
        }
      }),
      { numRuns: 500 },
    );
    expect(opened).toBeGreaterThan(100);
  });

  it.each([41, 42, 43, 44, 400])('a second FeLV vaccine that is %i days late or more is still asked for', (days) => {
    const animal = cat({
      born: '2025-10-01',
      arrived: '2025-12-01',
      history: [tested('negative', '2026-01-02'), given('felv-vaccine', '2026-01-10')],
      observations: [seen('felv-at-risk', '2026-01-01')],
    });
    const item = of(animal, addDays(day('2026-01-10'), days)).find(({ schedule }) => schedule === 'felv-vaccine');
    expect(item?.status).toMatch(/^(due|overdue)$/);
  });

  it('an exposure to FIV of a cat that nobody had called at risk and that was never tested asks for a test', () => {
    const animal = cat({
      born: '2024-10-01',
      arrived: '2026-01-01',
      observations: [seen('fiv-exposed', '2026-02-01')],
    });
    const item = of(animal, day('2026-02-01')).find(({ schedule }) => schedule === 'fiv-test');
    expect(item?.due).not.toBeNull();
    expect(item?.status).toMatch(/^(due|overdue|not-yet)$/);
  });

  it('a series left in the middle goes on after months away', () => {
    const animal = cat({
      born: '2025-12-01',
      arrived: '2026-01-01',
      history: [given('core-vaccine-live', '2026-01-15'), given('roundworm', '2026-01-15')],
    });
    for (const months of [2, 6, 10]) {
      const today = addSpan(day('2026-01-15'), { months });
      const items = of(animal, today).filter(({ schedule }) => ['core-vaccine', 'roundworm'].includes(schedule));
      expect(
        items.map(({ status }) => status),
        `${months} months`,
      ).toEqual(['overdue', 'overdue']);
    }
  });
});
