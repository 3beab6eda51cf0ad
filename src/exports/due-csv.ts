import type { DueLine } from '../api/wire.js';
import type { CalendarDate } from '../core/calendar.js';
import { csvText } from './csv.js';

/** Columns of the due list as CSV, in this order. Names are for ever: added at the end, never re-meant. */
const columns = [
  ['animal', (line) => line.animal],
  ['label', (line) => line.label],
  ['name', (line) => line.name],
  ['section', (line) => line.sectionName],
  ['kennel', (line) => line.kennel],
  ['schedule', (line) => line.scheduleName],
  ['dose', (line) => String(line.dose)],
  ['status', (line) => line.status],
  ['earliest_on', (line) => line.earliest ?? ''],
  ['due_on', (line) => line.due ?? ''],
  ['overdue_after', (line) => line.overdueAfter ?? ''],
  ['latest_on', (line) => line.latest ?? ''],
  ['hold', (line) => line.holdCode ?? ''],
  ['hold_until', (line) => line.holdUntil ?? ''],
  ['reason', (line) => line.reason],
  ['protocol', (line) => line.protocol],
  ['litter', (line) => line.litter ?? ''],
] as const satisfies readonly (readonly [string, (line: DueLine) => string])[];

/** What a file of the list of a day is called, without its ending. */
export const dueFileName = (on: CalendarDate): string => `due-${on}`;

/**
 * The due list as CSV, the same at the desk, from the server and from the command line. `demo` adds a column that says the
 * data is invented. `because`: why nothing can be worked out, as a row of its own that is about no animal, so that no list
 * looks empty for it.
 */
export function dueCsv(lines: readonly DueLine[], demo: boolean, because: string | null): string {
  const fields = [...columns.map(([name]) => name), ...(demo ? ['invented'] : [])];
  const data = lines.map((line) => [...columns.map(([, value]) => value(line)), ...(demo ? ['yes'] : [])]);
  if (because !== null) {
    data.unshift([...columns.map(([name]) => (name === 'reason' ? because : '')), ...(demo ? ['yes'] : [])]);
  }
  return csvText(fields, data);
}
