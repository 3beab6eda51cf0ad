import type { Table } from '../core/intake/file/table.js';
import type { ReadRow } from '../core/intake/taken-in.js';
import type { Say } from '../words/say.js';
import { csvFile, csvText } from './csv.js';
import type { WrittenFile } from './file.js';

/** The rows that were not brought in, as a person may keep them. */
export interface NotTaken {
  readonly count: number;
  readonly file: WrittenFile;
}

/**
 * Each row that was not brought in, with its number in the file, the reasons and then its cells as they are there.
 */
export function notTaken(
  name: string,
  table: Table,
  rows: readonly ReadRow[],
  taken: ReadonlySet<number>,
  say: Say,
): NotTaken {
  const cellsOf = new Map(table.rows.map((row) => [row.row, row.cells]));
  const left = rows.filter((row) => !taken.has(row.row));
  const lines = left.map((row) => {
    const reasons = row.reasons.map((reason) => say(reason)).join(' ');
    const why = row.verdict === 'refused' ? reasons : `${say('desk.import.rest-not-ticked')} ${reasons}`;
    return [String(row.row), why, ...(cellsOf.get(row.row) ?? [])];
  });
  const fields = [say('desk.import.rest-row'), say('desk.import.rest-why'), ...table.headings];
  return {
    count: left.length,
    file: csvFile(`${say('desk.import.rest-file')}-${name.replace(/\.[^.]*$/, '')}`, csvText(fields, lines)),
  };
}
