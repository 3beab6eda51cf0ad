import { describe } from 'vitest';
import { addSpan, CalendarDate, type Span } from '../../src/core/calendar.js';
import type { DueItem } from '../../src/core/protocol/due.js';
import { daysDoneOnTime } from '../support/protocol.js';
import {
  animalOf,
  type FromSmall,
  type FromStarter,
  fromSmall,
  fromStarter,
  smallProducts,
  smallProtocol,
} from './asking-protocols.js';
import { runPart } from './schema.js';

/** The named fields of an item; `held` is the code of the hold, `asks` how many things people are asked or told. */
function shown(item: DueItem, show: readonly string[]): object {
  const fields: Readonly<Record<string, unknown>> = {
    ...item,
    held: item.hold?.code ?? null,
    asks: item.asks?.length ?? 0,
    because: item.because.say,
  };
  return Object.fromEntries(show.map((name) => [name, fields[name]]));
}

interface Asked {
  readonly today: string;
  readonly show: readonly string[];
}

describe('published dates of treatments', () => {
  runPart('protocols', {
    'add-span': ({ date, span: length }: { date: string; span: Span }) => addSpan(CalendarDate.parse(date), length),
    'starter-item': (from: FromStarter & Asked) => shown(fromStarter(from).on(from.today), from.show),
    'starter-judged': (from: FromStarter & { today: string }) =>
      fromStarter(from)
        .past(from.today)
        .map(({ status, reason }) => `${status}: ${reason}`),
    'small-item': (from: FromSmall & Asked) => shown(fromSmall(from).on(from.today), from.show),
    'small-judged': (from: FromSmall & { today: string }) =>
      fromSmall(from)
        .past(from.today)
        .map(({ status, reason }) => `${status}: ${reason}`),
    'small-days': (from: FromSmall & { most: number; to?: string }) =>
      daysDoneOnTime(
        animalOf(from.animal, 'it', 'give'),
        smallProtocol(from),
        smallProducts,
        { schedule: 'it', product: 'it' },
        { most: from.most, ...(from.to === undefined ? {} : { to: from.to }) },
      ),
  });
});
