import { type Said, said } from '../said.js';
import { type Column, columnRules, isPlainDate } from './column-rules.js';
import { headingWords } from './compare.js';
import { type ColumnMapping, type Field, joined } from './fields.js';

export interface MappingGuess {
  readonly mapping: ColumnMapping;
  /** What a person should look at before going on. */
  readonly doubts: readonly Said[];
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
  const doubts = loneDate(columns, mapping, used);
  dateOfAge(columns, mapping);
  return { mapping, doubts: [...doubts, ...missing(mapping)] };
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
function loneDate(columns: readonly Column[], mapping: Partial<Record<Field, number[]>>, used: Set<number>): Said[] {
  if (mapping.arrived !== undefined || mapping.left !== undefined) return [];
  const dates = columns.flatMap((column, at) => (!used.has(at) && isPlainDate(column) ? [at] : []));
  const [at] = dates;
  if (at === undefined) return [];
  const heading = columns[at]?.heading ?? '';
  if (dates.length > 1) return [said('import.which-dates')];
  const how = columns[mapping.leftHow?.[0] ?? -1];
  const left = how !== undefined && how.filled >= how.all * 0.95;
  mapping[left ? 'left' : 'arrived'] = [at];
  return [said(left ? 'import.date-taken-as-left' : 'import.date-taken-as-arrived', { heading })];
}

/** An age refers to a date: the one whose heading shares a word with it, or the only one there is. */
function dateOfAge(columns: readonly Column[], mapping: Partial<Record<Field, number[]>>): void {
  const age = columns[mapping.age?.[0] ?? -1];
  if (age === undefined) return;
  const text = age.words.join(' ');
  const { arrived, left } = mapping;
  const aboutLeaving = /outcome|left|exit|leav|out\b/.test(text);
  const on = aboutLeaving ? left : (arrived ?? left);
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
