import type { CalendarDate } from '../../calendar.js';
import { readDay } from '../cells/day.js';
import { wordsOf } from '../compare.js';
import { deathPhrases, departureAlone, departurePhrases, firmDepartures } from './departure-words.js';

export type LeftHow = 'adopted' | 'transferred' | 'returned-to-owner' | 'died' | 'other';

const gone: readonly RegExp[] = [/^(missing|lost|stolen|escaped?)$/];
const dead: readonly RegExp[] = [
  /^(dead|deceased|died|death|doa|dis(posal|posed)|euth(anasia|anised|anized|anise|anize|anasie)?|pts)$/,
  /^(cooler|freezer|morgue|crematory|cremat(ed|ion)|necropsy|remains|carcass|burial)$/,
];

/**
 * Whether a word for a place or for a way of leaving means that the animal is dead or not to be found, so that it must
 * not appear on a round. The words are plain English for it; a list of a shelter's own places overrides them.
 */
export function isGone(cell: string): 'dead' | 'missing' | null {
  const words = wordsOf(cell);
  if (words.some((word) => dead.some((shape) => shape.test(word)))) return 'dead';
  if (hasCross(cell) || holds(words, deathPhrases)) return 'dead';
  const missing = words.some((word) => gone.some((shape) => shape.test(word)));
  // "Lost and found" is a desk, not a fate.
  return missing && !words.includes('found') ? 'missing' : null;
}

/** A cross before or instead of a day of death. */
export const hasCross = (text: string): boolean => /[†✝✞]/.test(text);

const holds = (words: readonly string[], phrases: readonly string[]): boolean => {
  const text = ` ${words.join(' ')} `;
  return phrases.some((phrase) => text.includes(` ${phrase} `));
};

/** The way of leaving in our few words; what is not recognised is `other`, and the cell is kept as the note. */
export function readLeftHow(cell: string): LeftHow {
  const text = wordsOf(cell).join(' ');
  if (isGone(cell) === 'dead') return 'died';
  if (/\bowner\b|\breclaim|\bredeem/.test(text)) return 'returned-to-owner';
  if (/\badopt/.test(text)) return 'adopted';
  return /\b(transfer|trf|tfr|xfer)|\brescue|\bpartner|\btransport/.test(text) ? 'transferred' : 'other';
}

/** Whether a cell of a column about being dead says yes: `TRUE`, `1`, `yes`, `dead`. */
export const saysDead = (cell: string): boolean => /^(true|t|1|y|yes|dead|deceased|died)$/i.test(cell.trim());

/** What a column about being dead says: yes by a word or a day of death, no, nothing, or what cannot be read. */
export function readDead(cell: string): 'yes' | 'no' | 'not-understood' {
  const text = cell.trim();
  if (saysNo(text) || /\balive\b/i.test(text)) return 'no';
  if (saysDead(text) || isGone(text) === 'dead') return 'yes';
  return ['read', 'two-readings'].includes(readDay(text, null, anyToday).state) ? 'yes' : 'not-understood';
}

// Only years of two figures look at it; whatever they mean, it is a day.
const anyToday = '2099-12-31' as CalendarDate;

/** An empty cell, or one that says no or nothing. */
export const saysNo = (cell: string): boolean =>
  /^(|false|f|0|n|no|-+|\?+|n\/?a|none|null|nil|unknown|unk)$/i.test(cell.trim());

/**
 * Whether a way of leaving is a foster placement, in which the animal stays in care. `unclear`: the same cell also says
 * that it is gone ("adopted by its foster home").
 */
export function readFostered(cell: string): 'yes' | 'unclear' | 'no' {
  if (!/foster/i.test(cell)) return 'no';
  const words = wordsOf(cell);
  if (!words.some((word) => /^foster(s|ed|ing|er|ers|home|care|parents?)?$/.test(word))) return 'no';
  return isGone(cell) !== null || words.some((word) => departed.test(word)) ? 'unclear' : 'yes';
}

const departed = /^(adopted|adoption|transferred|reclaimed|redeemed|rehomed|released)$/;
/** Words of animals that are still to be had, of rooms, and of the way in: such a cell does not say that it left. */
const stillHere =
  /^(here|care|active|current|resident|available|adoptable|pending|ready|hold|held|for|up|awaiting|waiting|candidate|fee|days?|in|from|floor|room|ward|cent(re|er)|area|kennel|cage|event|foster\w*)$/;

/**
 * Whether the words of a cell say that an animal has died or left, whatever its column is called (of the states of the
 * animals, or of something else). Plain English for it (departure-words.ts), common practice, no source; what a shelter
 * means by its own words is asked.
 */
export function saysGone(cell: string, column: 'of-states' | 'of-anything' | 'of-else' = 'of-anything'): boolean {
  if (hasCross(cell)) return true;
  const state = column === 'of-states';
  const words = wordsOf(cell);
  const text = words.join(' ');
  if (words.length === 0 || (words.length > 6 && !state)) return false;
  if (holds(words, firmDepartures)) return true;
  if (/\b(no|not|never|alive|request\w*)\b/.test(text)) return false;
  const toOwner =
    /\b(return\w* to|reclaim\w*|redeem\w*|rto)\b|\bowner (collect|claim|pick|took)|\b(up|ed) by owner\b/.test(text);
  if (words.includes('owner') && !toOwner) return false;
  if (isGone(cell) === 'dead' || toOwner) return true;
  if (words.some((word) => stillHere.test(word) || /^return/.test(word))) return false;
  if (isGone(cell) === 'missing' && (state || words.length <= 2)) return true;
  if (words.some(isDeparture) || holds(words, departurePhrases)) return true;
  if (column === 'of-else') return false;
  return state ? holds(words, departureAlone) : departureAlone.includes(text);
}

const isDeparture = (word: string): boolean => departed.test(word) || /^(transfer|release|reclaim)$/.test(word);

/** Whether a filled cell under a heading about leaving leaves open that the animal has left. */
export const mayMeanGone = (cell: string): boolean =>
  !saysNo(cell) && (isGone(cell) === 'dead' || !wordsOf(cell).some((word) => stillHere.test(word)));
