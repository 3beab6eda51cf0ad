import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { deskAndMedical, type Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import { leavesAhead } from '../views/animal.js';

/** Days of arriving and leaving that cannot be: by them an animal would fall off every round in silence. */
export function stayFlags(animal: Animal, standing: readonly LogRecord[], today: CalendarDate, raise: Raise): void {
  const arrived = { date: animal.arrivedOn };
  const said = standing.findLast(
    (record) =>
      record.kind === 'animal-taken-in' || (record.kind === 'animal-described' && record.body.arrivedOn !== undefined),
  );
  if (said !== undefined && animal.arrivedOn > today) raise('arrives-ahead', 'stop', said, deskAndMedical, { arrived });
  for (const record of standing) {
    if (record.kind !== 'animal-left') continue;
    const values = { on: { date: record.body.on }, arrived };
    if (animal.left === null && leavesAhead(record)) raise('leaves-ahead', 'stop', record, deskAndMedical, values);
    if (record.body.on < animal.arrivedOn) raise('left-before-arrival', 'stop', record, deskAndMedical, values);
  }
}
