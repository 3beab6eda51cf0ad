import { describe, expect, it } from 'vitest';
import { starterFormulary } from '../../../test/support/documents.js';
import { cat, day, seen, weight } from '../../../test/support/protocol.js';
import { dayNumber } from '../calendar.js';
import { aboutConditions } from '../protocol/about-conditions.js';
import type { ProtocolInput } from '../protocol/input.js';
import { conditionGates, conditionsFound, foundSaid } from './conditions.js';
import { ProductCondition } from './product-condition.js';

/** Conditions are invented data; what they do is the rule (Verifies: DOSE-R72, DOSE-R73). */
const formulary = starterFormulary();
const on = '2026-03-12';
const common = { does: 'stop', words: 'Not so.', source: 'from-memory', standing: 'from-memory' } as const;
const pregnant = { is: 'seen', kind: 'pregnant', codes: ['pregnant'], unknown: 'go-on', ...common };
const of = (...conditions: object[]) => conditions.map((one) => ProductCondition.parse(one));

function gates(conditions: object[], animal: Parameters<typeof cat>[0] = {}, when = on) {
  const input: ProtocolInput = { animal: cat({ born: '2025-03-12', ...animal }), formulary };
  const about = aboutConditions(input, dayNumber(day(when)), dayNumber(day(when)));
  return conditionGates(conditionsFound(of(...conditions), about)).map(({ code, severity, asks }) => [
    code,
    severity,
    ...(asks === undefined ? [] : [asks]),
  ]);
}

describe('a condition of a product', () => {
  it('stops while what it names was seen and is not over, and not a day longer than it lasts', () => {
    expect(gates([pregnant])).toEqual([]);
    const observations = [seen('pregnant', '2026-03-10')];
    expect(gates([pregnant], { observations })).toEqual([['if-pregnant', 'stop']]);
    const over = [...observations, seen('pregnant', '2026-03-11', { state: 'absent' })];
    expect(gates([pregnant], { observations: over })).toEqual([]);
    const lasting = { ...pregnant, lasts: { days: 2 } };
    expect(gates([lasting], { observations })).toEqual([['if-pregnant', 'stop']]);
    expect(gates([lasting], { observations }, '2026-03-13')).toEqual([]);
    expect(gates([pregnant], { observations }, '2026-03-09')).toEqual([]);
  });

  it('is shown by any of its codes, and says or asks the veterinarian as the document has it', () => {
    const ill = { ...pregnant, kind: 'ill', codes: ['ill', 'fever'] };
    const observations = [seen('ill', '2026-03-10', { state: 'absent' }), seen('fever', '2026-03-11')];
    expect(gates([ill], { observations })).toEqual([['if-ill', 'stop']]);
    expect(gates([{ ...ill, does: 'ask-veterinarian' }], { observations })).toEqual([['if-ill', 'stop']]);
    expect(gates([{ ...ill, does: 'show' }], { observations })).toEqual([['if-ill', 'note']]);
  });

  // Verifies: DOSE-R84
  it('about a weight is asked where none is known, and passed over only where it is only shown', () => {
    const light = { is: 'weight', under: { amount: '1', unit: 'kg' }, over: null, ...common };
    expect(gates([light])).toEqual([['if-weight', 'note']]);
    expect(gates([{ ...light, does: 'ask-veterinarian' }])).toEqual([['if-weight', 'note']]);
    expect(gates([{ ...light, does: 'show' }])).toEqual([['if-weight', 'note']]);
    expect(gates([light], { weighings: [weight(on, 1000)] })).toEqual([]);
    expect(gates([light], { weighings: [weight(on, 999)] })).toEqual([['if-weight', 'stop']]);
    const [found] = conditionsFound(
      of(light),
      aboutConditions({ animal: cat({ born: '2025-03-12' }), formulary }, dayNumber(day(on)), dayNumber(day(on))),
    );
    expect(found && foundSaid(found)).toMatchObject({ say: 'dose.gate.if-weight-unknown' });
  });

  it('asks what nobody knows, by the code that answers it, of animals that it can concern', () => {
    const ask = { ...pregnant, unknown: 'ask', concerns: { sex: 'female', unneutered: true, from: { months: 4 } } };
    const hold = { ...ask, unknown: 'hold' };
    expect(gates([ask], { sex: 'female' })).toEqual([['if-pregnant', 'note', 'pregnant']]);
    expect(gates([hold], { sex: 'female' })).toEqual([['if-pregnant', 'stop', 'pregnant']]);
    expect(gates([hold], { sex: 'unknown' })).toEqual([['if-pregnant', 'stop', 'pregnant']]);
    expect(gates([hold], { sex: 'male' })).toEqual([]);
    expect(gates([hold], { sex: 'female', neutered: 'yes' })).toEqual([]);
    expect(gates([hold], { sex: 'female', born: '2025-11-13' })).toEqual([]);
    expect(gates([hold], { sex: 'female', born: '2025-11-12' })).toEqual([['if-pregnant', 'stop', 'pregnant']]);
    const answered = [seen('pregnant', on, { state: 'absent' })];
    expect(gates([hold], { sex: 'female', observations: answered })).toEqual([]);
  });

  it('of an age takes the youngest and the oldest that it may be, the day reached included', () => {
    const age = { is: 'age', under: { weeks: 8 }, from: { years: 10 }, ...common };
    const born = (text: string) => gates([age], { born: text });
    expect([born('2026-01-16'), born('2026-01-15')]).toEqual([[['if-age', 'stop']], []]);
    expect([born('2016-03-13'), born('2016-03-12')]).toEqual([[], [['if-age', 'stop']]]);
  });

  it('of a weight is under the one and over the other, both themselves allowed', () => {
    const kg = (amount: string) => ({ amount, unit: 'kg' });
    const heavy = { is: 'weight', under: kg('1'), over: kg('5'), ...common };
    const at = (grams: number) => gates([heavy], { weighings: [weight('2026-03-11', grams)] });
    expect([at(999), at(1000), at(5000), at(5001)]).toEqual([[['if-weight', 'stop']], [], [], [['if-weight', 'stop']]]);
  });

  it('keeps away from a product of another class for so many days', () => {
    const apart = { is: 'after-product', classes: ['ear-mite'], days: 14, ...common };
    const given = (text: string) => ({
      history: [
        {
          what: 'given',
          record: 'r',
          on: day(text),
          at: `${text}T09:00:00.000Z`,
          schedule: null,
          product: 'selamectin-60',
          substandard: null,
        },
      ] as never,
    });
    expect(gates([apart], given('2026-02-27'))).toEqual([['if-after-product', 'stop']]);
    expect(gates([apart], given('2026-02-26'))).toEqual([]);
    expect(gates([{ ...apart, classes: ['roundworm'] }], given('2026-03-11'))).toEqual([]);
  });
});

it('every condition of the starter formulary names a source of it (Verifies: DOSE-R72)', () => {
  const sources = new Set<string>(formulary.sources.map(({ id }) => id));
  const all = formulary.products.flatMap(({ conditions }) => conditions);
  expect(all.length).toBeGreaterThan(15);
  expect(all.filter(({ source }) => !sources.has(source))).toEqual([]);
});
