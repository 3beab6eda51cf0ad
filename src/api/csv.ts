import papaparse from 'papaparse';

/** What marks a file as UTF-8 for spreadsheets, so that they read its letters right. In front of files, never of streams. */
export const byteOrderMark = '\uFEFF';

/**
 * Rows as delimited text (RFC 4180: comma, quotes doubled, CRLF), for people's spreadsheets. A cell that a spreadsheet would
 * take for a formula gets an apostrophe in front.
 */
export function csvText(fields: readonly string[], data: readonly (readonly (string | number)[])[]): string {
  const text = papaparse.unparse({ fields, data }, { newline: '\r\n', escapeFormulae: true });
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}
