import { addDays, addSpan, CalendarDate, daysBetween, type Span } from '../../../src/core/calendar.js';
import type { DueItem } from '../../../src/core/protocol/due.js';
import type { Evaluated } from '../../../src/core/protocol/evaluated.js';
import { daysDoneOnTime, starterProducts, starterWith } from '../../support/protocol.js';
import {
  type Animal,
  animalOf,
  type FromSmall,
  fromSmall,
  fromStarter,
  products,
  smallProducts,
  smallProtocol,
} from '../asking-protocols.js';

/**
 * The engine of treatments, put to an animal of a published value: by the starter protocol with choices of it, or by a
 * small protocol that is written as the claim of the value says. What is asked of it is the given of the value.
 */
export type Choices = Readonly<Record<string, string>>;
export const day = (text: string): CalendarDate => CalendarDate.parse(text);
export const after = (text: string, length: Span): CalendarDate => addSpan(day(text), length);
export const before = (text: string, days: number): CalendarDate => addDays(day(text), -days);
export const between = (from: string, to: string | null): number => daysBetween(day(from), day(to ?? from));

export const starter = (schedule: string, animal: Animal, choices: Choices = {}) =>
  fromStarter({ schedule, animal, choices });
export const small = (animal: Animal, targets: FromSmall['targets'], more: Partial<FromSmall> = {}) =>
  fromSmall({ animal, targets, ...more });

/** The days of a series whose doses are all given on their day. */
export const starterDays = (schedule: string, animal: Animal, most: number, choices: Choices = {}): string[] =>
  daysDoneOnTime(
    animalOf(animal, schedule, 'give'),
    starterWith(choices),
    starterProducts,
    { schedule, product: products[schedule] ?? '' },
    { most },
  );
export const smallDays = (animal: Animal, targets: FromSmall['targets'], most: number): string[] =>
  daysDoneOnTime(
    animalOf(animal, 'it', 'give'),
    smallProtocol({ animal, targets }),
    smallProducts,
    { schedule: 'it', product: 'it' },
    { most },
  );

export const windowOf = ({ earliest, overdueAfter }: DueItem) => [earliest, overdueAfter];
export const isDue = ({ status }: DueItem): boolean => status === 'due' || status === 'overdue';

/** What a past dose was worth, in the words of the public logic. */
export const worth = ({ status, reason }: Evaluated): string => {
  const reasons: Readonly<Record<string, string>> = {
    'valid: in-time': 'valid',
    'valid: grace': 'valid: grace period',
    'not-valid: too-young': 'not valid: too young',
    'not-valid: too-soon': 'not valid: too soon',
    'extra: too-old': 'too old, extraneous',
  };
  return reasons[`${status}: ${reason}`] ?? `${status}: ${reason}`;
};

/** What is given as one value only is looked at, so that another one fails. */
export function onlyFor(given: string, ...known: readonly string[]): void {
  if (!known.includes(given)) throw new Error(`${given} is another question than ${known.join(' or ')}`);
}
/** The option of a choice of the starter protocol for what is given. */
export function optionFor(given: string, options: Choices): string {
  const option = options[given];
  if (option === undefined) throw new Error(`no option of the starter protocol is ${given}`);
  return option;
}

/** A length as it is written, `12 months - 4 days` or `+3 weeks`. */
export function spanOf(text: string): Span {
  const parts = [...text.matchAll(/([+-]?)\s*(\d+)\s+(year|month|week|day)s?/g)];
  if (parts.length === 0) throw new Error(`${text} is no length`);
  return Object.fromEntries(parts.map(([, sign, n, unit]) => [`${unit}s`, Number(`${sign ?? ''}${n}`)])) as Span;
}
