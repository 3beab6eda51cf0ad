import { describe, expect, it, test } from 'vitest';
import {
  asking,
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
} from '../../test/support/protocol.js';
import { forecast } from '../core/protocol/engine/forecast.js';
import type { ProtocolInput } from '../core/protocol/input.js';
import type { Said } from '../core/said.js';
import { due } from './en/animal/due.js';
import { english } from './english.js';
import { argumentsIn, parsed } from './message.js';
import { sayFor } from './say.js';

const speak = sayFor({ language: english, zone: 'UTC' });
const say = (what: Said): string => speak(what).replaceAll('\u00a0', ' ');

const why = (schedule: string, today: string, about: Parameters<typeof cat>[0], protocol = starter): string =>
  say(asking(cat(about), protocol, starterProducts, schedule).on(today).because);
const vaccine = (...days: string[]) => days.map((on) => given('core-vaccine-live', on));

describe('why it is due', () => {
  it('by the interval from the dose before', () => {
    expect(why('core-vaccine', '2026-02-27', { history: vaccine('2026-01-29', '2026-02-12', '2026-02-26') })).toBe(
      'Core vaccine 4 is due 12 March 2026: 2 weeks after dose 3 on 26 February 2026. ' +
        'The series ends with the first dose given at 20 weeks of age or later.',
    );
  });

  it('by age, and says when the age is a guess', () => {
    expect(why('felv-test', '2026-01-10', {})).toBe('FeLV test is due 5 February 2026: at 5 weeks of age.');
    expect(why('felv-test', '2026-01-10', { bornFrom: '2025-12-20' })).toBe(
      'FeLV test is due 5 February 2026: at 5 weeks of age, counted from the estimated birth date.',
    );
  });

  it('on arrival', () => {
    expect(why('core-vaccine', '2026-03-01', { born: '2024-01-01', arrived: '2026-03-01' })).toBe(
      'Core vaccine 1 is due 1 March 2026: on arrival.',
    );
  });

  it('after one that did not count', () => {
    expect(why('core-vaccine', '2026-02-20', { history: vaccine('2026-02-10', '2026-02-20') })).toMatch(
      /^Core vaccine 2 is due 6 March 2026: 2 weeks after the one on 20 February 2026, which did not count \(too soon /,
    );
    expect(why('felv-test', '2026-02-10', { history: [tested('invalid', '2026-02-10')] })).toBe(
      'FeLV test is due again from 10 February 2026: the one on 10 February 2026 did not count (the test showed no valid result).',
    );
  });

  it('as the next weighing', () => {
    expect(why('weighing', '2026-03-01', { history: [weighed('2026-02-28')] })).toBe(
      'Weighing is due 7 March 2026: 1 week after the last one on 28 February 2026. ' +
        'This goes on to 16 weeks of age, then the next step of the schedule follows.',
    );
  });

  it('because fleas were seen', () => {
    const about = {
      born: '2025-10-01',
      history: [given('topical-flea', '2026-01-01')],
      observations: [seen('fleas', '2026-03-03')],
    };
    expect(why('flea', '2026-03-03', about)).toMatch(
      /^Flea treatment on the skin 2 is due 3 March 2026: it was seen or ordered/,
    );
  });
});

describe('why it is not', () => {
  test.each([
    [
      'done once',
      'chip',
      {
        history: [chipped('2026-02-10')],
        chip: { code: '985112001234567', confirmed: true, record: chipped('2026-02-10').record },
      },
      'Chip 985112001234567 is in and was read in the animal.',
    ],
    [
      'series complete',
      'core-vaccine',
      { born: '2025-09-01', history: vaccine('2026-02-10', '2026-02-24') },
      'Core vaccine is complete: 2 valid doses, the last on 24 February 2026. ' +
        'Core vaccine 3 is due 24 February 2029: 3 years after dose 2 on 24 February 2026.',
    ],
    [
      'reactive',
      'felv-test',
      { history: [tested('reactive', '2026-02-10')] },
      'FeLV test was reactive on 10 February 2026. One reactive test is not a diagnosis: the medical team confirms it. ' +
        'The protocol: confirm it by a second antigen test of another method, before any step that cannot be undone.',
    ],
    [
      'on need',
      'flea',
      { history: [given('topical-flea', '2026-03-01')] },
      'Flea treatment on the skin was done on 1 March 2026. It is repeated only when seen to be needed, and not before 29 March 2026.',
    ],
  ])('%s', (_, schedule, about, sentence) => {
    expect(why(schedule, '2026-03-10', about)).toBe(sentence);
  });
});

describe('holds and questions', () => {
  const item = (schedule: string, about: Parameters<typeof cat>[0], protocol = starter) =>
    asking(cat(about), protocol, starterProducts, schedule).on('2026-03-10');
  const heldBy = (schedule: string, about: Parameters<typeof cat>[0]): string => {
    const hold = item(schedule, about).hold;
    return hold === null ? 'nothing holds it' : say(hold.why);
  };

  it('say what holds', () => {
    expect(heldBy('core-vaccine', { observations: [seen('fever', '2026-03-09')] })).toMatch(/^Fever over 39.8 °C/);
    expect(heldBy('core-vaccine', { holds: [{ ...placedHold('2026-03-01', null), note: 'Surgery tomorrow' }] })).toBe(
      'On hold: Surgery tomorrow.',
    );
    expect(heldBy('chip', { weighings: [weight('2026-03-09', 400)] })).toBe(
      'Weighed 400 g on 9 March 2026. It waits until the animal weighs 450 g.',
    );
    expect(heldBy('chip', { history: [chipped('2026-03-09', false)] })).toMatch(/^Chip 985112001234567 was put in/);
  });

  it('ask what nobody has said', () => {
    const asks = item('core-vaccine', { born: '2025-01-01', sex: 'female', neutered: 'no' }).asks ?? [];
    expect(asks.map((ask) => say(ask))).toEqual(['May she be pregnant? If so, wait and ask the veterinarian.']);
  });

  it('show the option chosen', () => {
    const shown = starterWith({ 'core-vaccine-pregnant': 'show' });
    const asks =
      item('core-vaccine', { born: '2025-01-01', observations: [seen('pregnant', '2026-03-01')] }, shown).asks ?? [];
    expect(asks.map((ask) => say(ask))).toEqual([
      'Pregnant: attenuated live vaccine is avoided. Ask the veterinarian.',
    ]);
  });
});

describe('what past ones were worth', () => {
  it('is said in a sentence', () => {
    const history = vaccine('2026-01-20', '2026-02-10', '2026-02-20');
    const past = asking(cat({ history }), starter, starterProducts, 'core-vaccine').past('2026-02-20');
    expect(past.map(({ why: sentence }) => say(sentence))).toEqual([
      'Core vaccine on 20 January 2026 does not count: the animal was too young. It would have counted from 29 January 2026.',
      'Core vaccine 1 on 10 February 2026 counts: in time.',
      'Core vaccine on 20 February 2026 does not count: too soon after the one before. It would have counted from 24 February 2026.',
    ]);
  });
});

describe('the trace', () => {
  it('shows every rule with its date and source, and which one decided', () => {
    const { trace, sources } = asking(
      cat({ history: vaccine('2026-01-29') }),
      starter,
      starterProducts,
      'core-vaccine',
    ).on('2026-02-01');
    expect(trace.map(({ rule, value, date, source, bound }) => [rule, value, date, source, bound])).toEqual([
      ['born', '', '2026-01-01', null, false],
      ['minimum-interval', 'P2W', '2026-02-12', 'aaha-aafp-2020-shelter', true],
      ['minimum-age', 'P4W', '2026-01-29', 'aaha-aafp-2020-shelter', false],
      ['arrival', '', '2026-01-01', null, false],
      ['last-done', '', '2026-01-29', null, false],
      ['late-interval', 'P2W1D', '2026-02-13', 'aaha-aafp-2020-shelter', false],
    ]);
    expect(sources).toEqual(['aaha-aafp-2020-shelter']);
    expect(trace.map(({ words }) => (words === undefined ? '' : say(words)))).toContain(
      'At least 2 weeks after the one before',
    );
  });
});

describe('the messages', () => {
  it('no sentence of a day in the shelter has a hole', () => {
    const animals: ProtocolInput['animal'][] = [
      cat(),
      cat({
        sex: 'female',
        born: '2025-01-01',
        history: vaccine('2026-02-10'),
        observations: [seen('fleas', '2026-02-01')],
      }),
      cat({ history: [tested('not-valid', '2026-02-10'), given('roundworm', '2026-02-01'), weighed('2026-02-02')] }),
    ];
    for (const animal of animals) {
      for (const item of forecast({ animal, formulary: starterProducts }, starter, day('2026-02-15'))) {
        const sentences = [
          item.because,
          ...(item.asks ?? []),
          ...item.trace.flatMap(({ words }) => (words === undefined ? [] : [words])),
        ];
        for (const sentence of sentences) expect(say(sentence)).not.toMatch(/⟨|^due\./);
      }
    }
  });

  it('every message is well-formed', () => {
    for (const text of Object.values(due)) expect(() => argumentsIn(parsed(text))).not.toThrow();
  });
});
