import { type Said, said } from '../../said.js';
import { headingWords } from '../compare.js';
import { arriving, type Column, columnRules, isPlainDate, leaving } from './column-rules.js';
import { type ColumnMapping, type Field, joined } from './fields.js';

export interface MappingGuess {
  readonly mapping: ColumnMapping;
  /** Columns of days whose headings do not say of what. */
  readonly plainDates: readonly number[];
}

/** Below this a match is not worth proposing. */
const threshold = 0.5;

/**
 * Propose which column is what, from the words in the headings and the shape of the cells. Give as many rows as there
 * are: a column counts as unique only over the rows given. A person confirms or changes the proposal.
 */
export function guessMapping(headings: readonly string[], rows: readonly (readonly string[])[]): MappingGuess {
  const columns = headings.map((heading, at) => columnOf(heading, rows, at));
  const matches = columns
    .flatMap((column, at) => columnRules.map((rule) => ({ field: rule.field, at, score: rule.score(column) })))
    .filter((match) => match.score >= threshold)
    .sort((one, other) => other.score - one.score || one.at - other.at);
  const mapping: Partial<Record<Field, number[]>> = {};
  const used = new Set<number>();
  for (const { field, at } of matches) {
    const known = mapping[field] ?? [];
    if (used.has(at) || (known.length > 0 && !joined.includes(field))) continue;
    mapping[field] = [...known, at].sort((one, other) => one - other);
    used.add(at);
  }
  // The number of a stay also names its animal when there is no other number.
  if (mapping.label === undefined && mapping.key !== undefined) mapping.label = mapping.key;
  const plainDates = columns.flatMap((column, at) => (!used.has(at) && isPlainDate(column) ? [at] : []));
  loneDate(columns, mapping, plainDates);
  dateOfAge(columns, mapping);
  return { mapping, plainDates };
}

/** What a person should look at before going on, by the columns as they are taken now. */
export function noticesOf(headings: readonly string[], { plainDates }: MappingGuess, mapping: ColumnMapping): Said[] {
  const notices: Said[] = [];
  const [only] = plainDates;
  if (plainDates.length > 1 && mapping.arrived === undefined && mapping.left === undefined) {
    notices.push(said('import.which-dates'));
  } else if (plainDates.length === 1 && only !== undefined) {
    const heading = headings[only] ?? '';
    if (mapping.left?.includes(only)) notices.push(said('import.date-taken-as-left', { heading }));
    if (mapping.arrived?.includes(only)) notices.push(said('import.date-taken-as-arrived', { heading }));
  }
  return [...notices, ...missing(mapping)];
}

function columnOf(heading: string, rows: readonly (readonly string[])[], at: number): Column {
  const filled = rows.map((row) => row[at] ?? '').filter((cell) => cell !== '');
  return {
    heading,
    words: headingWords(heading),
    all: rows.length,
    filled: filled.length,
    distinct: new Set(filled).size,
    sample: filled.length <= 400 ? filled : filled.filter((_, index) => index % Math.ceil(filled.length / 400) === 0),
  };
}

/**
 * A file with one date whose heading does not say which: the day of leaving when every row tells how the animal left,
 * otherwise the day of arrival. Always doubtful.
 */
function loneDate(
  columns: readonly Column[],
  mapping: Partial<Record<Field, number[]>>,
  plainDates: readonly number[],
): void {
  const [at] = plainDates;
  if (mapping.arrived !== undefined || mapping.left !== undefined || at === undefined || plainDates.length > 1) return;
  const how = columns[mapping.leftHow?.[0] ?? -1];
  mapping[how !== undefined && how.filled >= how.all * 0.95 ? 'left' : 'arrived'] = [at];
}

/** Only a heading that says so ties the ages to another column's days; otherwise a person is asked. */
function dateOfAge(columns: readonly Column[], mapping: Partial<Record<Field, number[]>>): void {
  const age = columns[mapping.age?.[0] ?? -1];
  if (age === undefined || mapping.ageOn !== undefined) return;
  const text = age.words.join(' ');
  const { arrived, left } = mapping;
  const on = leaving.test(text) ? left : arriving.test(text) ? arrived : undefined;
  if (on !== undefined) mapping.ageOn = on;
}

function missing(mapping: ColumnMapping): Said[] {
  const doubts: Said[] = [];
  if (mapping.species === undefined) doubts.push(said('import.no-species-column'));
  if (mapping.label === undefined && mapping.name === undefined) doubts.push(said('import.no-name-column'));
  if (mapping.arrived === undefined) doubts.push(said('import.no-arrival-column'));
  if (mapping.place === undefined && mapping.kennel === undefined) doubts.push(said('import.no-place-column'));
  return doubts;
}
