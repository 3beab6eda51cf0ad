import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CalendarDate } from '../core/calendar.js';
import type { Key, Said, SayValues } from '../core/said.js';
import { english } from './english.js';
import { age } from './english-age.js';
import type { Language } from './language.js';
import { type Listener, sayFor } from './say.js';

const language: Language = {
  ...english,
  messages: {
    plain: 'The lot is out of date.',
    due: '{animal} is due on {on}.',
    when: 'Read at {at_time} on {at_day} ({at}).',
    drawn: 'Draw {volume} for {weight}, {dose}.',
    old: '{animal} is {age} old.',
    both: '{what} ({why})',
    several: 'Bring {things}.',
    count: '{n, plural, one {# animal} other {# animals}}',
    number: '{n, number}',
    young: 'age < 4 weeks & <b>rising</b>',
  },
};
/** The sentences of this test are no part of the catalogue. */
type SayAny = (what: Said | string, values?: SayValues) => string;
const sayAny = (listener: Listener): SayAny => sayFor(listener) as unknown as SayAny;
const said = (say: string, values: SayValues = {}): Said => ({ say: say as Key, with: values });
const say = sayAny({ language, zone: 'America/St_Johns' });
const nbsp = '\u00a0';

describe('say', () => {
  test('tells of a key that is not here yet, and says it once it is', () => {
    const messages: Record<string, string> = {};
    const asked: string[] = [];
    const speak = sayAny({ language: { ...language, messages, missing: (key) => asked.push(key) }, zone: 'UTC' });
    expect(speak('later')).toBe('later');
    expect(asked).toEqual(['later']);
    messages['later'] = 'Here it is.';
    expect(speak('later')).toBe('Here it is.');
    expect(asked).toEqual(['later']);
  });

  test('a key alone, as text or as a sentence', () => {
    expect(say('plain')).toBe('The lot is out of date.');
    expect(say(said('plain'))).toBe('The lot is out of date.');
  });

  test('a day is a day in every zone', () => {
    const due = said('due', { animal: 'Fern', on: { date: CalendarDate.parse('2026-03-12') } });
    expect(say(due)).toBe('Fern is due on 12 March 2026.');
    expect(sayAny({ language, zone: 'Pacific/Auckland' })(due)).toBe(say(due));
  });

  test('an instant is told in the listener’s zone, whole or in halves', () => {
    // Newfoundland is 2 h 30 min behind UTC in summer time, so this instant is still the day before there.
    expect(say('when', { at: { instant: '2026-07-02T01:05:00Z' } })).toBe(
      'Read at 22:35 on 1 July 2026 (1 July 2026, 22:35).',
    );
  });

  test('quantities bring their unit along', () => {
    const text = say('drawn', { volume: { microlitres: 150 }, weight: { grams: 850 }, dose: { micrograms: 4250 } });
    expect(text).toContain(`0.15${nbsp}mL`);
    expect(text).toContain(`850${nbsp}g`);
    expect(text).toContain(`4.25${nbsp}mg`);
  });

  test('sentences and lists nest', () => {
    expect(say('both', { what: said('plain'), why: said('old', { animal: 'Fern', age: { ageDays: 44 } }) })).toBe(
      `The lot is out of date. (Fern is 6${nbsp}weeks 2${nbsp}days old.)`,
    );
    expect(say('several', { things: { list: ['a', 'b', { ageDays: 1 }] } })).toBe(`Bring a, b and 1${nbsp}day.`);
    expect(say('several', { things: { list: ['a', { list: ['b', 'c'] }] } })).toBe('Bring a and b and c.');
  });

  test('counts choose their plural, and numbers are written as quantities are', () => {
    expect(say('count', { n: 1 })).toBe('1 animal');
    expect(say('count', { n: 12345 })).toBe('12,345 animals');
    expect(say('number', { n: 1234.0625 })).toBe('1,234.0625');
  });

  test('text is text, never markup', () => {
    expect(say('young')).toBe('age < 4 weeks & <b>rising</b>');
  });

  test('a missing key comes back, a missing value shows where it is missing', () => {
    expect(say('no.such.key')).toBe('no.such.key');
    expect(say('toString')).toBe('toString');
    expect(say('due', { animal: 'Fern' })).toBe('Fern is due on ⟨on⟩.');
    expect(() => say('count')).not.toThrow();
  });
});

describe('ages in words, Verifies: CAL-R7', () => {
  test.each([
    [0, '0 days'],
    [1, '1 day'],
    [13, '13 days'],
    [14, '2 weeks'],
    [44, '6 weeks 2 days'],
    [181, '25 weeks 6 days'],
    [182, '26 weeks'],
    [729, '104 weeks'],
    [730, 'about 2 years'],
    [1200, 'about 3 years'],
    [-2, '2 days before birth'],
  ])('%i days', (days, words) => {
    expect(age(days).replaceAll(nbsp, ' ')).toBe(words);
  });

  test('a figure is never parted from its unit', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 9000 }), (days) => !/\d /.test(age(days))));
  });
});
