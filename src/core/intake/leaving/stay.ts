import type { CalendarDate } from '../../calendar.js';
import { type Said, said } from '../../said.js';
import { dayOf } from '../cells/cell-day.js';
import type { Field } from '../columns/fields.js';
import type { ImportContext } from '../taken-in.js';
import { isGone, readDead, readFostered } from './leaving.js';

/** Whether the animal of a row is still in care. */
export interface Stay {
  /** The day on which it left for good, or null while it is in care. */
  readonly left: CalendarDate | null;
  /** The way of leaving that still counts; empty when it came back or is fostered. */
  readonly how: string;
  /** In a foster home: the words that say so. It is in care, wherever it was before. */
  readonly fostered: string | null;
  readonly dead: boolean;
}

/**
 * An animal in a foster home is in care, and so is one that came back after it left; the day in the column of leaving
 * is then no day of leaving. Words and days that contradict each other are doubts.
 */
export function readStay(
  cell: (field: Field) => string,
  context: Pick<ImportContext, 'dateOrder' | 'today'>,
  doubts: Said[],
  notes: Said[],
): Stay {
  const how = cell('leftHow');
  const left = dayOf(cell('left'), context, doubts, 'import.left-in-future');
  const back = dayOf(cell('returned'), context, doubts, 'import.returned-in-future');
  const dying = readDead(cell('dead'));
  if (dying === 'not-understood') doubts.push(said('import.dead-not-understood', { cell: cell('dead') }));
  const dead = dying === 'yes';
  const inCare = (fostered: string | null): Stay => ({ left: null, how: '', fostered, dead });
  if (back !== null) {
    if (left !== null && back < left) {
      doubts.push(said('import.returned-before-leaving', { back: { date: back }, left: { date: left } }));
    } else if (isGone(how) !== null) doubts.push(said('import.returned-though-gone', { back: { date: back }, how }));
    else notes.push(said('import.came-back', { back: { date: back } }));
    return inCare(null);
  }
  const foster = readFostered(how);
  if (foster === 'unclear') doubts.push(said('import.foster-or-left', { how }));
  if (foster === 'no') return { left, how, fostered: null, dead };
  if (foster === 'yes') notes.push(left === null ? said('import.fostered') : fosteredSince(left));
  return inCare(how);
}

const fosteredSince = (since: CalendarDate): Said => said('import.fostered-since', { since: { date: since } });
