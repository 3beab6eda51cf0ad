import type { CalendarDate } from '../../calendar.js';
import { readAgeText } from '../cells/age-text.js';
import { readDay } from '../cells/day.js';
import { readNeutered, readSex } from '../cells/sex-code.js';
import { isCat, namesSpecies } from '../cells/species.js';
import type { Field } from './fields.js';

/** What the guess looks at in one column. */
export interface Column {
  readonly heading: string;
  readonly words: readonly string[];
  /** Rows in the file, rows with a cell here, and different cells. */
  readonly all: number;
  readonly filled: number;
  readonly distinct: number;
  /** Some of the filled cells. */
  readonly sample: readonly string[];
}

interface ColumnRule {
  readonly field: Field;
  /** 0 for no match, about 1 for a good one; only compared with the scores of other columns and fields. */
  readonly score: (column: Column) => number;
}

const says = (column: Column, shape: RegExp): boolean => shape.test(column.words.join(' '));

/** Share of the sample that passes; an empty column passes nothing. */
const share = (column: Column, passes: (cell: string) => boolean): number =>
  column.sample.length === 0 ? 0 : column.sample.filter(passes).length / column.sample.length;

// Any day after every date that a file can hold: only two-figure years look at it.
const anyToday = '2099-12-31' as CalendarDate;
const isDay = (cell: string): boolean => {
  const { state } = readDay(cell, null, anyToday);
  return state === 'read' || state === 'two-readings' || state === 'no-such-day';
};
/** Whether most cells are days, whatever the heading says. */
const isDated = (column: Column): boolean => share(column, isDay) >= 0.7;
const isEmpty = (column: Column): boolean => column.filled === 0;
const isIdLike = (column: Column): boolean =>
  share(column, (cell) => /^[#\p{L}\p{N}./_-]{1,24}$/u.test(cell) && /\p{N}/u.test(cell)) >= 0.9 && !isDated(column);
const isChipLike = (cell: string): boolean => /^(\d{15}|[0-9a-fA-F]{10}|\d{9})$/.test(cell.replace(/[\s.*-]/g, ''));

/** Cells enough to believe a telling heading; the others are doubts of their rows and not of the column. Ours. */
const some = 0.2;

const namesDay = /\b(date|day|datum|fecha|dob|birthday)\b|^(born|geboren)$/;

/**
 * A date with telling words in its heading. A heading that names a day is taken at its word, also without any cell and
 * with cells of which hardly one can be read.
 */
const dateBy =
  (shape: RegExp, not = /^$/) =>
  (column: Column): number => {
    if (!says(column, shape) || says(column, not)) return 0;
    const days = share(column, isDay);
    if (days >= some) return days >= 0.7 ? 1.5 : 1.1;
    return says(column, namesDay) || (isEmpty(column) && says(column, /\bon\b/)) ? 0.6 : 0;
  };

/** Text known by the words of its heading. */
const textBy =
  (shape: RegExp, not = /^$/) =>
  (column: Column): number =>
    says(column, shape) && !says(column, not) && !isDated(column) ? 1 : 0;

const idWord = /\b(ids?|nos?|nr|num|number|nummer|ref|reference|code|tag|key)\b/;
export const arriving =
  /\b(intake|arriv\w*|admi\w+|received|entry|entered|impound\w*|surrender\w*|in|aufnahme|eingang|entree|ingreso)\b/;
export const leaving =
  /\b(outcome|left|leav\w*|depart\w*|out|exit\w*|releas\w*|dispos\w*|adopted|abgang|sortie|salida)\b/;
const birth = /\b(born|birth\w*|dob|geboren|geburt\w*|naissance|nacimiento)\b/;
const stay = /\b(impound|intake|stay|case|record|visit|admission|entry|key|unique)\b/;

/** A date whose heading does not say of what. */
export const isPlainDate = (column: Column): boolean =>
  isDated(column) && column.words.every((word) => /^(date|time|day|when|datetime|timestamp|datum|fecha)$/.test(word));

export const columnRules: readonly ColumnRule[] = [
  {
    field: 'species',
    score: (column) => {
      const named = share(column, (cell) => namesSpecies(cell) || isCat(cell) === 'cat');
      const sure = share(column, namesSpecies);
      const few = column.distinct <= 30;
      const clear = says(column, /\b(species|tierart|espece|especie)\b/);
      const heading = clear || (says(column, /\b(type|animal|kind)\b/) && !says(column, /name/));
      const enough = named >= (clear ? some : 0.5);
      return few && heading && !says(column, idWord) && enough
        ? 1 + named
        : few && sure >= 0.9 && !says(column, /name/)
          ? 0.9
          : 0;
    },
  },
  {
    field: 'sex',
    score: (column) => {
      const read = share(column, (cell) => ['read', 'blank'].includes(readSex(cell).state));
      const clear = share(column, (cell) => /\b(fe)?male\b|neuter|spay/i.test(cell));
      const named = says(column, /^(sex|gender)|\b(sex|gender)$/);
      if (read < 0.6) return named && (isEmpty(column) || read >= some) ? 0.6 : 0;
      return says(column, /^(sex|gender|geschlecht|sexo)|\b(sex|gender)\b/) ? 1.5 : clear >= 0.5 ? 0.8 : 0;
    },
  },
  {
    field: 'neutered',
    score: (column) => {
      const heading = says(column, /neuter|spay|altered|desex|sterili|castr|kastr|\bfixed\b/) && !says(column, /date/);
      return heading && (isEmpty(column) || share(column, (cell) => readNeutered(cell) !== null) >= some) ? 1 : 0;
    },
  },
  { field: 'born', score: dateBy(birth) },
  { field: 'arrived', score: dateBy(arriving, /birth|born/) },
  { field: 'left', score: dateBy(leaving, /birth|born|intake/) },
  { field: 'weighedOn', score: (column) => dateBy(/weigh|weight|gewogen/)(column) * 1.2 },
  {
    field: 'age',
    score: (column) => {
      const read = share(column, (cell) => readAgeText(cell) !== null);
      if (says(column, /^age|\b(age|alter|edad)\b/)) return read >= some ? 0.5 + read : 0;
      return read >= 0.6 ? read : 0;
    },
  },
  { field: 'ageOn', score: dateBy(/\bage\b/, new RegExp(`${birth.source}|${arriving.source}|${leaving.source}`)) },
  { field: 'returned', score: dateBy(/\b(return(ed)?|came back)\b/, /owner|wild|field|intake|arriv/) },
  {
    field: 'label',
    score: (column) => {
      if (!isIdLike(column) || share(column, isChipLike) > 0.5 || says(column, /chip|kennel|cage|litter|zip|owner/))
        return 0;
      const animal = says(column, /\b(animal|cat|kitten|pet|tier|our|shelter)\b/);
      if (says(column, idWord)) return animal ? 1.4 : says(column, stay) ? 0.6 : 0.9;
      return says(column, /^(animal|label|id)$/) ? 0.8 : 0;
    },
  },
  {
    field: 'key',
    score: (column) => {
      const unique = column.filled === column.all && column.distinct === column.all && column.all > 1;
      return unique && isIdLike(column) && says(column, idWord) && says(column, stay) ? 1.3 : 0;
    },
  },
  {
    field: 'name',
    score: (column) =>
      textBy(
        /\bnames?\b|^(nom|nombre|nome|called)$/,
        /owner|breed|shelter|file|staff|person|litter|kennel|vet|species|sex|colou?r|type/,
      )(column),
  },
  {
    field: 'leftHow',
    score: (column) => {
      if (
        !says(column, leaving) ||
        isDated(column) ||
        says(column, /sub|condition|jurisdiction|zip|age|sex|dead|alive|id\b/)
      )
        return 0;
      return says(column, /type|how|reason|status|outcome|disposition/) &&
        share(column, (cell) => /\p{L}/u.test(cell)) >= 0.8
        ? 1
        : 0;
    },
  },
  {
    field: 'dead',
    score: (column) =>
      says(column, /dead|deceased|\b(died|death|put to sleep)\b/) &&
      !says(column, /reason|why|cause/) &&
      share(column, (cell) => /^(true|false|t|f|1|0|y|n|yes|no)$/i.test(cell) || isDay(cell)) >= 0.5
        ? 1
        : 0,
  },
  {
    field: 'place',
    score: textBy(
      /\b(location|place|section|ward|room|area|housing|unit|ort|bereich|lieu)\b/,
      /found|jurisdiction|street|zip|address|of origin|crossing/,
    ),
  },
  { field: 'kennel', score: textBy(/\b(kennel|cage|pen|condo|crate|kafig|zwinger|jaula)s?\b/) },
  { field: 'litter', score: textBy(/\b(litter|wurf|portee|camada)\b/, /box|trained/) },
  { field: 'coat', score: textBy(/\b(colou?rs?|coat|farbe|couleur|pelage)\b/, /collar|eye/) },
  { field: 'mark', score: textBy(/\b(marks?|markings?|features?|distinguishing|merkmale?)\b/) },
  { field: 'collar', score: textBy(/\b(collar|halsband|collier)\b/) },
  {
    field: 'chip',
    score: (column) => {
      if (says(column, /status|date|registered|company|maker/)) return 0;
      const shaped = share(column, isChipLike);
      return says(column, /chip|transponder|rfid/) ? 1 + shaped : shaped >= 0.8 && column.distinct > 1 ? 0.7 : 0;
    },
  },
  {
    field: 'weight',
    score: (column) => {
      const heading =
        says(column, /\b(weight|wt|mass|gewicht|poids|peso|kg|grams?)\b/) &&
        !says(column, /date|total|gross|tare|bag|birth/);
      return heading && (isEmpty(column) || share(column, (cell) => /^[\d.,]/.test(cell)) >= some) && !isDated(column)
        ? 1
        : 0;
    },
  },
  { field: 'notes', score: textBy(/\b(notes?|comments?|remarks?|memo|bemerkung(en)?|observations?)\b/) },
];
