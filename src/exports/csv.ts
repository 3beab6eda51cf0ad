import papaparse from 'papaparse';
import type { WrittenFile } from './file.js';

/** What marks a file as UTF-8 for spreadsheets, so that they read its letters right. In front of files, never of streams. */
const byteOrderMark = '\uFEFF';

/**
 * Rows as delimited text (RFC 4180: comma, quotes doubled, CRLF), for people's spreadsheets. A cell that a spreadsheet would
 * take for a formula gets an apostrophe in front.
 */
export function csvText(fields: readonly string[], data: readonly (readonly (string | number)[])[]): string {
  const text = papaparse.unparse({ fields, data }, { newline: '\r\n', escapeFormulae: true });
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}

/** Delimited text as a file of its own. */
export const csvFile = (name: string, text: string): WrittenFile => ({
  name: `${name}.csv`,
  type: 'text/csv;charset=utf-8',
  text: byteOrderMark + text,
});
