import papaparse from 'papaparse';
import { type Said, said } from '../../said.js';

export type Delimiter = ',' | ';' | '\t' | '|';

export interface TableRow {
  /** Row as a spreadsheet numbers it: the headings are row 1. */
  readonly row: number;
  /** Line of the text file on which the row begins, from 1; differs from `row` after a cell with line breaks. */
  readonly line: number;
  /** One text per heading, trimmed of blanks; text is never turned into numbers or dates here. */
  readonly cells: readonly string[];
  /** `broken`: its cells may stand under the wrong headings, so it cannot be used; `short`: cells at the end missing. */
  readonly state: 'whole' | 'short' | 'broken';
  readonly problems: readonly Said[];
}

export interface Table {
  readonly delimiter: Delimiter;
  readonly headings: readonly string[];
  /** Without blank rows. */
  readonly rows: readonly TableRow[];
  /** About the file and, with their row numbers, about single rows. */
  readonly problems: readonly Said[];
}

// In this order when the counts are equal: a comma also occurs inside headings, a semicolon hardly ever.
const delimiters: readonly Delimiter[] = ['\t', ';', '|', ','];

/**
 * Read delimited text (RFC 4180, and semicolon, tab or bar in place of the comma). The delimiter is decided from the
 * heading line alone, so a decimal comma in the rows cannot mislead it; a person may name another one.
 * Never throws: whatever cannot be read is a sentence with the row number.
 */
export function readTable(source: string, chosen?: Delimiter): Table {
  const text = source.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const directive = /^sep=([,;\t|])\n/i.exec(text);
  const skipped = directive?.[0].length ?? 0;
  const body = text.slice(skipped);
  const delimiter = chosen ?? (directive?.[1] as Delimiter | undefined) ?? decideDelimiter(body);
  const records = recordsOf(body, delimiter, skipped > 0 ? 2 : 1);
  const first = records.findIndex((record) => record.cells.some((cell) => cell !== ''));
  const head = records[first];
  if (head === undefined) return { delimiter, headings: [], rows: [], problems: [said('import.empty-file')] };
  const headings = withoutEmptyEnd(head.cells);
  const rows = records
    .slice(first + 1)
    .filter((record) => record.cells.some((cell) => cell !== ''))
    .map((record) => rowOf(record, headings.length, delimiter));
  return {
    delimiter,
    headings,
    rows,
    problems: [...fileProblems(headings, rows, head.errors), ...rows.flatMap((row) => row.problems)],
  };
}

function decideDelimiter(text: string): Delimiter {
  const heading = /^\s*((?:"[^"]*"|[^"\n])*)/.exec(text)?.[1] ?? '';
  const bare = heading.replace(/"[^"]*"/g, '');
  const counts = delimiters.map((delimiter) => bare.split(delimiter).length - 1);
  const most = Math.max(...counts);
  return (most === 0 ? undefined : delimiters[counts.indexOf(most)]) ?? ',';
}

interface RawRecord {
  readonly row: number;
  readonly line: number;
  readonly cells: readonly string[];
  readonly errors: readonly string[];
}

function recordsOf(text: string, delimiter: Delimiter, firstLine: number): RawRecord[] {
  const records: RawRecord[] = [];
  let start = 0;
  let line = firstLine;
  papaparse.parse(text, {
    delimiter,
    newline: '\n',
    quoteChar: '"',
    skipEmptyLines: false,
    step: ({ data, errors, meta }) => {
      records.push({
        row: records.length + firstLine,
        line,
        cells: data.map((cell) => cell.trim()),
        errors: errors.map((error) => error.code),
      });
      line += newlines(text, start, meta.cursor);
      start = meta.cursor;
    },
  });
  return records;
}

function newlines(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = text.indexOf('\n', from); at !== -1 && at < to; at = text.indexOf('\n', at + 1)) count++;
  return count;
}

function rowOf(record: RawRecord, columns: number, delimiter: Delimiter): TableRow {
  const { row, line } = record;
  const cells = withoutEmptyEnd(record.cells, columns);
  const problems: Said[] = [];
  let state: TableRow['state'] = 'whole';
  if (record.errors.includes('MissingQuotes')) problems.push(said('import.quote-not-closed', { row, line }));
  else if (record.errors.includes('InvalidQuotes')) problems.push(said('import.quote-inside', { row, line }));
  else if (cells.some((cell) => swallowsRows(cell, columns, delimiter))) {
    problems.push(said('import.quote-swallows-rows', { row, line }));
  } else if (cells.length > columns) {
    problems.push(said('import.too-many-cells', { row, cells: cells.length, columns }));
  }
  if (problems.length > 0) state = 'broken';
  else if (cells.length < columns) {
    state = 'short';
    problems.push(said('import.too-few-cells', { row, cells: cells.length, columns }));
  }
  const filled = [...cells, ...Array<string>(Math.max(0, columns - cells.length)).fill('')].slice(0, columns);
  return { row, line, cells: filled, state, problems };
}

/** A cell whose later lines look like whole rows: a quotation mark was left open further up and closed by chance. */
const swallowsRows = (cell: string, columns: number, delimiter: Delimiter): boolean =>
  columns > 2 &&
  cell
    .split('\n')
    .slice(1)
    .some((line) => line.split(delimiter).length >= columns);

function withoutEmptyEnd(cells: readonly string[], atLeast = 0): readonly string[] {
  let end = cells.length;
  while (end > atLeast && cells[end - 1] === '') end--;
  return cells.slice(0, end);
}

function fileProblems(headings: readonly string[], rows: readonly TableRow[], errors: readonly string[]): Said[] {
  const problems: Said[] = [];
  if (errors.includes('MissingQuotes')) problems.push(said('import.quote-not-closed', { row: 1, line: 1 }));
  if (rows.length === 0) problems.push(said('import.only-headings'));
  if (headings.length === 1) problems.push(said('import.one-column', { heading: headings[0] ?? '' }));
  const twice = headings.find((heading, at) => heading !== '' && headings.indexOf(heading) !== at);
  if (twice !== undefined) problems.push(said('import.heading-twice', { heading: twice }));
  const data = headings.find((heading) => /^[\d.,:/\s-]+$/.test(heading) && /\d/.test(heading));
  if (data !== undefined) problems.push(said('import.no-headings', { cell: data }));
  return problems;
}
