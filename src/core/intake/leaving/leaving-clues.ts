import type { CalendarDate } from '../../calendar.js';
import { derived } from '../../derived.js';
import { type DayOrder, readDay } from '../cells/day.js';
import { type ColumnMapping, cellOf, isMapped } from '../columns/fields.js';
import { headingWords, wordsOf } from '../compare.js';
import type { Table } from '../file/table.js';
import { deathPhrases, departureHeadings, herePhrases, stateHeadings } from './departure-words.js';
import { hasCross, isGone, mayMeanGone, saysGone, saysNo } from './leaving.js';

/** A column that is not used although its cells may tell who has died or left. */
export interface LeavingClue {
  readonly column: number;
  readonly heading: string;
  /** Whether this cell leaves open that the animal of its row has died or left. */
  readonly tells: (cell: string) => boolean;
}

/** A column as it looks for this, whatever the columns are taken for. */
interface Looked {
  readonly column: number;
  readonly heading: string;
  /** Its heading's words, in one text. */
  readonly words: string;
  /** Its different cells; null for a column with too many to be a list of states. */
  readonly cells: readonly string[] | null;
  /** Rows in which it is filled, some hundred at most. */
  readonly sample: readonly (readonly string[])[];
  readonly isDated: boolean;
}

// How many different words a column of states has at most, and how many rows are compared; ours.
const mostStates = 60;
const mostCompared = 400;
// Only years of two figures look at it.
const anyToday = '2099-12-31' as CalendarDate;

const dying = new RegExp(
  `\\b(dead|deceased|died|deaths?|doa|euth\\w*|mortalit\\w*|put to sleep|pts|${deathPhrases.join('|')})\\b`,
);
const alive = /\balive\b/;
const parting =
  /\b(outcome|left|leav\w*|depart\w*|out|exit\w*|releas\w*|dispos\w*|adopt\w*|rehom\w*|reclaim\w*|transfer\w*)\b/;
const arriving = /\b(in|from|intake|arriv\w*|admi\w+|received|entry|surrender\w*)\b/;
/** Other things that happen to an animal after its arrival, and what only goes with a leaving that is told elsewhere. */
const otherwise =
  /vaccin|rabies|worm|flea|test|felv|fiv|neuter|spay|alter|chip|weigh|weight|treat|medic|exam|surg|updat|modif|chang|creat|print|due|next|birth|born|dob|\bage\b|found|hold|expir|review|photo|report|book|check|visit|seen|licen[cs]|return|back|breed|colou?r|name|fee|price|condition|jurisdiction|zip|address|phone|days in/;

/**
 * Columns that are used for nothing and may tell who has died or left: by their heading, by their words, or because
 * their days follow the arrival. Those of which a person said that they tell nothing of it are left out.
 */
export function leavingClues(
  table: Table,
  mapping: ColumnMapping,
  order: DayOrder | null,
  tellsNothing: readonly number[],
): LeavingClue[] {
  const used = new Set([...Object.values(mapping).flat(), ...tellsNothing]);
  return look(table).flatMap((seen) => {
    if (used.has(seen.column)) return [];
    const tells = byHeading(seen) ?? byWords(seen) ?? (followsArrival(seen, mapping, order) ? mayMeanGone : null);
    return tells === null ? [] : [{ column: seen.column, heading: seen.heading, tells: besides(seen, tells) }];
  });
}

/**
 * Where one cell of a column may tell so, the other filled ones are open too, in whatever words they are; all but those
 * that plainly say that the animal is here. What else a column about arriving holds is about the arrival.
 */
function besides({ words, cells, sample, column }: Looked, tells: LeavingClue['tells']): LeavingClue['tells'] {
  if (alive.test(words) || arriving.test(words)) return tells;
  const seen = cells ?? sample.map((row) => row[column] ?? '');
  return seen.some(tells) ? (cell) => tells(cell) || (!saysNo(cell) && !saysHere(cell)) : tells;
}

const saysHere = (cell: string): boolean => herePhrases.includes(plain(cell));

function byHeading({ heading, words }: Looked): LeavingClue['tells'] | null {
  if (dying.test(words) || hasCross(heading)) {
    return alive.test(words) ? (cell) => saysGone(cell) : (cell) => !saysNo(cell) && !alive.test(plain(cell));
  }
  if (alive.test(words)) return (cell) => /^(false|f|0|n|no|dead)$/i.test(cell);
  if (departureHeadings.includes(words.replace(asides, '').trim())) return mayMeanGone;
  return parting.test(words) && !arriving.test(words) && !otherwise.test(words) ? mayMeanGone : null;
}

/** What a heading says beside its one word: `date sold`, `how collected`. */
const asides = /^(date|day|when|how|why|is|was)\b|\b(date|day|on|at|to|by|how|why)$/g;

const plain = (cell: string): string => wordsOf(cell).join(' ');

function byWords({ words, cells }: Looked): LeavingClue['tells'] | null {
  if (/name|breed|colou?r/.test(words)) return null;
  const about = otherwise.test(words) ? 'of-else' : stateHeadings.test(words) ? 'of-states' : 'of-anything';
  const says = (cell: string): boolean => saysGone(cell, about);
  // Under a heading about arriving only a death counts: "transfer" is a way in there.
  const tells = arriving.test(words) ? (cell: string) => says(cell) && isGone(cell) === 'dead' : says;
  const telling = new Set(cells?.filter(tells));
  return telling.size > 0 ? (cell) => telling.has(cell) : null;
}

/** Nearly every day of it is the day of arrival or a later one, and at least one is later. */
function followsArrival(seen: Looked, mapping: ColumnMapping, order: DayOrder | null): boolean {
  if (!seen.isDated || !isMapped(mapping, 'arrived') || otherwise.test(seen.words)) return false;
  let compared = 0;
  let from = 0;
  let later = 0;
  for (const cells of seen.sample) {
    const arrived = readDay(cellOf(cells, mapping, 'arrived'), order, anyToday);
    const day = readDay(cells[seen.column] ?? '', order, anyToday);
    if (arrived.state !== 'read' || day.state !== 'read') continue;
    compared++;
    if (day.day >= arrived.day) from++;
    if (day.day > arrived.day) later++;
  }
  return later > 0 && from >= compared * 0.9;
}

/** What a table looks like does not change with the answers, so it is looked at once. */
const look = derived((table: Table): readonly Looked[] =>
  table.headings.map((heading, column) => lookAt(table, heading, column)),
);

function lookAt(table: Table, heading: string, column: number): Looked {
  const rows = table.rows.filter((row) => row.state !== 'broken' && !saysNo(row.cells[column] ?? '')).map(cellsOf);
  const words = headingWords(heading).join(' ');
  const most = stateHeadings.test(words) ? Number.POSITIVE_INFINITY : mostStates;
  const cells = new Set<string>();
  for (const row of rows) {
    cells.add(row[column] ?? '');
    if (cells.size > most) break;
  }
  const step = Math.ceil(rows.length / mostCompared);
  const sample = rows.length <= mostCompared ? rows : rows.filter((_, at) => at % step === 0);
  const days = sample.filter((row) => {
    const { state } = readDay(row[column] ?? '', null, anyToday);
    return state === 'read' || state === 'two-readings';
  });
  return {
    column,
    heading,
    words,
    cells: cells.size > most ? null : [...cells],
    sample,
    isDated: sample.length > 0 && days.length >= sample.length / 2,
  };
}

const cellsOf = (row: Table['rows'][number]): readonly string[] => row.cells;

/** Columns in which some cells say that the animal was born in care (`born here`, `Born in shelter`), with those. */
export interface BornHere {
  readonly column: number;
  readonly cells: ReadonlySet<string>;
}

export function bornHereColumns(table: Table): readonly BornHere[] {
  return look(table).flatMap(({ column, cells }) => {
    const saying = new Set(cells?.filter(saysBornHere));
    return saying.size > 0 ? [{ column, cells: saying }] : [];
  });
}

const saysBornHere = (cell: string): boolean =>
  /^born (here|(in |at |on |to )*(our |the |a |an )*(shelt\w*|care|foster\w*|rescue|facility|custody|premises|house))\b/.test(
    plain(cell),
  );
