import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../../test/support/documents.js';
import { cat, day, given, seen, starter } from '../../../../test/support/protocol.js';
import { dayNumber } from '../../calendar.js';
import { doseOf } from '../../dosing/dose.js';
import { foundAgainst } from '../about-conditions.js';
import { worthFor } from '../input.js';
import { forecast } from './forecast.js';

const formulary = starterFormulary();
const on = '2026-03-12';

/** What is seen that a schedule on need asks for. */
const need = { flea: 'fleas', tapeworm: 'tapeworm', 'ear-mite': 'ear-mites' } as const;
const claimed = starter.schedules.flatMap((schedule) =>
  formulary.products
    .filter(({ classes }) => !schedule.recordedOnly.some((only) => classes.includes(only.class)))
    .flatMap((product) =>
      product.claims?.of.some((one) => schedule.claims.includes(one)) === true ? [{ schedule, product }] : [],
    ),
);

describe('a product counts by the claim of its label (Verifies: PROT-R59)', () => {
  it('covers every purpose of the starter documents more than once', () => {
    expect([...new Set(claimed.map(({ schedule }) => schedule.id))].sort()).toEqual([
      'ear-mite',
      'flea',
      'roundworm',
      'tapeworm',
    ]);
    expect(claimed.length).toBeGreaterThan(20);
  });

  it.each(claimed.map(({ schedule, product }) => [schedule.id, product.id] as const))(
    'no product whose claim a schedule covers leaves it open: %s by %s',
    (schedule, product) => {
      const code = need[schedule as keyof typeof need];
      const history = [given(product, on, { schedule: null } as never)];
      const observations = code === undefined ? [] : [seen(code, '2026-03-11')];
      const animal = { ...cat({ born: '2024-03-12', arrived: '2026-03-10', history, observations }) };
      const before = { ...animal, history: [] };
      const of = (one: typeof animal, when: string) =>
        forecast({ animal: one, formulary }, starter, day(when)).find((item) => item.schedule === schedule);
      const open = ['due', 'overdue', 'on-hold'];
      expect(open).toContain(of(before, '2026-03-13')?.status);
      expect(open).not.toContain(of(animal, '2026-03-13')?.status);
    },
  );

  it('a tablet that does not last is only recorded: the treatment for the skin stays open', () => {
    const history = [given('nitenpyram-tablet-11-4', on, { schedule: null } as never)];
    const observations = [seen('fleas', '2026-03-11')];
    const animal = cat({ born: '2024-03-12', arrived: '2026-03-10', history, observations });
    const item = forecast({ animal, formulary }, starter, day('2026-03-13')).find((one) => one.schedule === 'flea');
    expect(['due', 'overdue']).toContain(item?.status);
  });

  it('is accepted without being offered, and what is only recorded stays so', () => {
    const flea = starter.schedules.find(({ id }) => id === 'flea');
    if (flea === undefined) throw new Error('no flea schedule');
    const worth = (product: string, schedule: Parameters<typeof worthFor>[1] = flea) =>
      worthFor({ formulary }, schedule, product as never);
    expect(worth('selamectin-60')).toBe('satisfies');
    expect(worth('selamectin-sarolaner')).toBe('accepted');
    expect(worth('pyrantel-50')).toBeNull();
    const only = {
      class: 'topical-flea-and-mite',
      spaces: true,
      source: 's' as never,
      standing: 'read' as const,
      note: '',
    };
    expect(worth('selamectin-sarolaner', { ...flea, recordedOnly: [only] })).toEqual(only);
    const item = forecast(
      { animal: cat({ born: '2024-03-12', observations: [seen('fleas', '2026-03-11')] }), formulary },
      starter,
      day(on),
    ).find(({ schedule }) => schedule === 'flea');
    expect(item?.products).not.toContain('selamectin-sarolaner');
  });
});

/** Fipronil two days after selamectin, which was no stop. */
it('products against fleas keep their distance from each other, whatever is in them (Verifies: DOSE-R75)', () => {
  const product = formulary.products.find(({ id }) => id === 'fipronil-100');
  if (product === undefined) throw new Error('no fipronil');
  const stops = (before: string) =>
    doseOf({
      product,
      formulary,
      weighing: { grams: 3000, at: `${on}T08:00:00.000Z`, doubtful: false },
      ageDays: { youngest: 700, oldest: 700 },
      today: day(on),
      now: `${on}T09:00:00.000Z`,
      syringes: formulary.syringes.map(({ id }) => id),
      recent: [{ product: 'selamectin-60' as never, at: `${before}T09:00:00.000Z`, volume_ul: null }],
    })
      .gates.filter(({ severity }) => severity === 'stop')
      .map(({ code }) => code);
  expect(stops('2026-03-10')).toEqual(['ingredient-too-soon']);
  expect(stops('2026-02-19')).toEqual([]);
});

it('what goes on the skin says that it keeps away from a chip put in that day (Verifies: DOSE-R76)', () => {
  const chipped = (when: string) => ({
    animal: cat({
      born: '2024-03-12',
      history: [
        { what: 'chipped', record: 'c', on: day(when), at: `${when}T09:00:00.000Z`, code: '900', confirmed: true },
      ] as never,
    }),
    formulary,
  });
  const found = (when: string) =>
    foundAgainst(chipped(when), 'selamectin-60' as never, dayNumber(day(on)), dayNumber(day(on))).map(
      ({ condition }) => condition.is,
    );
  expect(found(on)).toContain('after-chip');
  expect(found('2026-03-11')).not.toContain('after-chip');
  const skin = formulary.products.filter(({ route, species }) => route === 'on the skin' && species.includes('cat'));
  expect(
    skin.filter(({ conditions }) => !conditions.some(({ is }) => is === 'after-chip')).map(({ id }) => id),
  ).toEqual([]);
});
