import type { HistoryEvent, Observation, TestResult } from '../../src/core/animal/animal.js';
import { Span } from '../../src/core/calendar.js';
import type { ProtocolDocument } from '../../src/core/protocol/document/document.js';
import {
  type About,
  age,
  asking,
  cat,
  catalogueOf,
  chipped,
  given as gave,
  protocolOf,
  seen,
  span,
  starterProducts,
  starterWith,
  tested,
  weighed,
} from '../support/protocol.js';

/**
 * Each case asks the engine itself: the starter protocol with options chosen, or a small protocol built from the
 * published values in the case, and an animal with a history. What the sources expect stands in the case.
 */
interface Past {
  readonly on: string;
  readonly product?: string;
  readonly substandard?: 'expired-lot' | 'withdrawn-lot' | 'not-taken';
  readonly result?: TestResult;
  readonly of?: string;
}

export interface Animal extends Pick<About, 'born' | 'bornFrom' | 'arrived' | 'sex' | 'neutered'> {
  readonly done?: readonly (string | Past)[];
  readonly seen?: readonly { readonly code: string; readonly on: string; readonly state?: 'present' | 'absent' }[];
}

export interface FromStarter {
  readonly animal: Animal;
  readonly choices?: Readonly<Record<string, string>>;
  readonly schedule: string;
}

interface Limits {
  readonly absMin?: Span;
  readonly min?: Span;
  readonly rec?: Span;
  readonly late?: Span;
  readonly max?: Span;
}

export interface SmallTarget {
  readonly age?: Limits;
  readonly on?: 'arrival' | { readonly seen: string };
  readonly repeats?: { readonly until?: Span; readonly ends?: 'before' | 'with-a-dose-at-or-after' };
  readonly intervals?: readonly (Limits & { readonly from?: string })[];
  readonly restartAfter?: Span;
  readonly skipWhenSeen?: string;
}

export interface FromSmall {
  readonly animal: Animal;
  readonly action?: 'give' | 'test' | 'look';
  readonly targets: readonly SmallTarget[];
  readonly start?: { readonly from?: Span; readonly under?: Span };
  readonly apart?: readonly { readonly class: string; readonly begins: Span; readonly ends: Span }[];
  readonly needsFirst?: readonly { readonly schedule: string; readonly result: 'negative' | 'any' }[];
  readonly also?: readonly (Pick<FromSmall, 'targets' | 'action'> & { readonly id: string })[];
}

export const products: Readonly<Record<string, string>> = {
  'core-vaccine': 'core-vaccine-live',
  roundworm: 'roundworm',
  flea: 'topical-flea',
  rabies: 'rabies-vaccine',
};

function pastEvent(one: string | Past, schedule: string, action: string): HistoryEvent {
  const past = typeof one === 'string' ? { on: one } : one;
  if (schedule === 'chip') return chipped(past.on);
  if (schedule === 'weighing') return weighed(past.on);
  if (past.result !== undefined || action === 'test')
    return tested(past.result ?? 'negative', past.on, past.of ?? schedule);
  const substandard = past.substandard === undefined ? {} : { substandard: past.substandard };
  return gave(past.product ?? products[schedule] ?? schedule, past.on, substandard);
}

export function animalOf(animal: Animal, schedule: string, action: string) {
  const { done = [], seen: observed = [], ...about } = animal;
  const observations: Observation[] = observed.map(({ code, on, state = 'present' }) => seen(code, on, { state }));
  return cat({ ...about, observations, history: done.map((one) => pastEvent(one, schedule, action)) });
}

const isTest = (schedule: string): string => (schedule.endsWith('-test') ? 'test' : 'give');

export const fromStarter = (from: FromStarter) =>
  asking(
    animalOf(from.animal, from.schedule, isTest(from.schedule)),
    starterWith(from.choices ?? {}),
    starterProducts,
    from.schedule,
  );

const ageNames = {
  absMin: 'absoluteMinimum',
  min: 'minimum',
  rec: 'earliestRecommended',
  late: 'latestRecommended',
  max: 'maximum',
};
const named = (limits: Limits, make: (length: Span) => object): object =>
  Object.fromEntries(
    Object.entries(ageNames).flatMap(([short, full]) => {
      const length = limits[short as keyof Limits];
      return length === undefined ? [] : [[full, make(Span.parse(length))]];
    }),
  );

function startOf(from: string | undefined): object {
  if (from === undefined || from === 'previous') return { is: 'previous' };
  if (from === 'arrival') return { is: 'arrival' };
  if (/^\d+$/.test(from)) return { is: 'dose', number: Number(from) };
  return { is: 'observation', code: from };
}

const targetOf = (small: SmallTarget, at: number): object => ({
  id: `target-${at + 1}`,
  on:
    small.on === undefined
      ? { is: 'age' }
      : small.on === 'arrival'
        ? { is: 'arrival' }
        : { is: 'observation', code: small.on.seen },
  repeats:
    small.repeats === undefined
      ? null
      : {
          until: small.repeats.until === undefined ? null : age(small.repeats.until),
          ends: small.repeats.ends ?? 'before',
        },
  age: named(small.age ?? {}, (length) => age(length)),
  intervals: (small.intervals ?? []).map(({ from, ...limits }) => ({ from: startOf(from), ...named(limits, span) })),
  restartAfter: small.restartAfter === undefined ? null : span(small.restartAfter),
  skip:
    small.skipWhenSeen === undefined
      ? []
      : [
          {
            all: [{ is: 'observed', code: small.skipWhenSeen }],
            words: 'proven',
            source: 'test-source',
            standing: 'read',
          },
        ],
});

const smallSchedule = (id: string, from: Pick<FromSmall, 'action' | 'targets' | 'start'>): object => ({
  id,
  name: id,
  action: from.action ?? 'give',
  visitOrder: 1,
  satisfiedBy: [id],
  series: [
    {
      id: 'only',
      name: 'Only',
      start: Object.fromEntries(Object.entries(from.start ?? {}).map(([name, length]) => [name, age(length)])),
      targets: from.targets.map(targetOf),
    },
  ],
});

export function smallProtocol(from: FromSmall): ProtocolDocument {
  const grounds = { source: 'test-source', standing: 'read' };
  const main = {
    ...smallSchedule('it', from),
    apart: (from.apart ?? []).map((one) => ({ ...one, ...grounds })),
    needsFirst: (from.needsFirst ?? []).map((one) => ({ ...one, ...grounds })),
  };
  return protocolOf(main, ...(from.also ?? []).map((one) => smallSchedule(one.id, one)));
}

export const smallProducts = catalogueOf('it', 'other');
export const fromSmall = (from: FromSmall) =>
  asking(animalOf(from.animal, 'it', from.action ?? 'give'), smallProtocol(from), smallProducts, 'it');
