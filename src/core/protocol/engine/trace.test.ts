import { describe, expect, it } from 'vitest';
import {
  afterPrevious,
  age,
  asking,
  cat,
  catalogueOf,
  given,
  giving,
  once,
  protocolOf,
  seen,
} from '../../../../test/support/protocol.js';
import { ProtocolDocument } from '../document/document.js';

/** Cats are born 1 January 2026. */
const source = { source: 'test-source', standing: 'read' } as const;
const worm = catalogueOf('wormer', 'other', 'wormer+other');
const small = (targets: readonly object[], more: object = {}, animal: Parameters<typeof cat>[0] = {}) =>
  asking(cat(animal), protocolOf(giving('wormer', targets, more)), worm, 'wormer');

describe('the trace', () => {
  it('has every rule once, and marks the one that decided', () => {
    const target = once('only', {
      age: {
        minimum: age({ weeks: 4 }),
        earliestRecommended: age({ weeks: 6 }),
        latestRecommended: age({ weeks: 8 }),
        maximum: age({ weeks: 20 }),
      },
    });
    const { trace, sources } = small([target]).on('2026-02-01');
    expect(trace.map((one) => `${one.rule}${one.bound ? ' !' : ''}`)).toEqual([
      'born',
      'minimum-age',
      'recommended-age !',
      'late-age',
      'maximum-age',
    ]);
    expect(sources).toEqual(['test-source']);
  });

  it('of two rules with one date the first stands', () => {
    const same = once('only', { age: { minimum: age({ weeks: 4 }), earliestRecommended: age({ weeks: 4 }) } });
    expect(
      small([same])
        .on('2026-02-01')
        .trace.find((one) => one.bound)?.rule,
    ).toBe('minimum-age');
    const six = { weeks: 6 };
    const two = [
      once('first'),
      once('second', { age: { minimum: age(six) }, intervals: [afterPrevious({ minimum: { weeks: 2 } })] }),
    ];
    // Six weeks old on 12 February, two weeks after the first dose.
    const second = small(two, {}, { history: [given('wormer', '2026-01-29')] }).on('2026-02-01');
    expect(second).toMatchObject({ due: '2026-02-12', because: { say: 'due.interval' } });
    const intervals = [
      afterPrevious({ earliestRecommended: { weeks: 2 } }),
      { from: { is: 'observation', code: 'ill' }, earliestRecommended: { span: { days: 10 }, ...source } },
    ];
    const about = { history: [given('wormer', '2026-01-29')], observations: [seen('ill', '2026-02-02')] };
    const recommended = small([once('first'), once('second', { intervals })], {}, about).on('2026-02-03');
    expect(recommended).toMatchObject({ due: '2026-02-12', because: { say: 'due.interval' } });
  });

  it('names the source that decided first, then the others, each once', () => {
    const other = { source: 'second-source', standing: 'read' };
    const protocol = ProtocolDocument.parse({
      ...protocolOf(giving('wormer', [once('only')])),
      sources: [
        { id: 'test-source', title: 'One' },
        { id: 'second-source', title: 'Two' },
      ],
      schedules: [
        giving('wormer', [
          once('only', {
            age: {
              minimum: age({ weeks: 4 }),
              earliestRecommended: { ...age({ weeks: 6 }), ...other },
              latestRecommended: { ...age({ weeks: 8 }), ...other },
              maximum: age({ weeks: 20 }),
            },
          }),
        ]),
        giving('other', [once('only', { on: { is: 'arrival' }, age: { maximum: age({ weeks: 20 }) } })]),
      ],
    });
    const sources = (of: string) => asking(cat({ arrived: '2026-01-05' }), protocol, worm, of).on('2026-01-10').sources;
    expect(sources('wormer')).toEqual(['second-source', 'test-source']);
    expect(sources('other')).toEqual(['test-source']);
  });
});
