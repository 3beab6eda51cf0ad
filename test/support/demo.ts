import { CalendarDate, instantAt } from '../../src/core/calendar.js';
import { makeDemo } from '../../src/demo/make-demo.js';
import type { PrivatePerson } from '../../src/log/private-side.js';
import type { LogRecord } from '../../src/log/record.js';
import { starterFormulary, starterProtocol } from './documents.js';

export interface DemoAt {
  readonly today: CalendarDate;
  readonly zone: string;
  readonly now: string;
  readonly records: LogRecord[];
  readonly people: readonly PrivatePerson[];
}

/** The invented shelter as seen on a day at a wall-clock time. */
export function demoOn(day: string, zone = 'America/Chicago', time = '08:00', seed = 1): DemoAt {
  const today = CalendarDate.parse(day);
  const now = instantAt(today, time, zone);
  const { records, people } = makeDemo({
    today,
    now,
    zone,
    seed,
    protocol: starterProtocol(),
    formulary: starterFormulary(),
  });
  return { today, zone, now, records, people };
}
