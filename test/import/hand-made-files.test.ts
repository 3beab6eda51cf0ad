import { describe, expect, test } from 'vitest';
import { decodeText } from '../../src/core/intake/file/decode.js';
import { readTable } from '../../src/core/intake/file/table.js';
import { bytesOf, imported, reasons, tableOf } from './read-file.js';

const decoded = (name: string) => {
  const text = decodeText(bytesOf(name));
  return text.ok ? [text.value.encoding, text.value.doubts.map((doubt) => doubt.say)] : text.why.say;
};

describe('letters and files (Verifies: IMP-R1)', () => {
  test.each([
    ['byte-order-mark.csv', ['utf-8', []]],
    ['windows-1252.csv', ['windows-1252', ['import.code-page']]],
    ['utf-16.csv', ['utf-16le', []]],
    ['utf-16-unmarked.csv', ['utf-16be', ['import.utf16-unmarked']]],
    ['empty.csv', 'import.empty-file'],
    ['junk.csv', 'import.not-text'],
  ])('%s', (name, expected) => {
    expect(decoded(name)).toEqual(expected);
  });
  test('case 17: the first heading behind a byte order mark', () => {
    expect(tableOf('byte-order-mark.csv').headings).toEqual(['Animal ID', 'Name']);
    expect(imported(tableOf('byte-order-mark.csv')).byLabel('A1').name).toBe('Pip');
  });
  test.each([
    ['windows-1252.csv', ['Céline', 'Jalapeño', 'O’Malley']],
    ['utf-16.csv', ['Céline', 'Jalapeño', 'Łatka']],
    ['utf-16-unmarked.csv', ['Céline', 'Jalapeño', 'O’Malley']],
  ])('case 22: names of %s', (name, names) => {
    const { plan } = imported(tableOf(name));
    expect(plan.rows.map((row) => row.animal?.name)).toEqual(names);
    expect(plan.rows.map((row) => row.animal?.label)).toEqual(['0012', '0013', '0014']);
  });
});

describe('tables (Verifies: IMP-R3, IMP-R4)', () => {
  test('case 20: semicolons and decimal commas', () => {
    const { plan, table } = imported(tableOf('semicolon-decimal-comma.csv'));
    expect(table.delimiter).toBe(';');
    expect(plan.rows.map((row) => [row.name, row.weight?.grams])).toEqual([
      ['Pip', 650],
      ['Moo', 1200],
    ]);
  });
  test('an open quotation mark: the row before it stays', () => {
    const { plan, table } = imported(tableOf('unclosed-quote.csv'));
    expect(table.problems).toEqual([{ say: 'import.quote-not-closed', with: { row: 3, line: 3 } }]);
    expect(plan.rows.map((row) => [row.verdict, ...reasons(row)])).toEqual([
      ['accepted'],
      ['refused', 'quote-not-closed'],
    ]);
  });
  test('only headings', () => {
    const { plan, table } = imported(tableOf('only-headings.csv'));
    expect([plan.rows, table.problems.map((problem) => problem.say)]).toEqual([[], ['import.only-headings']]);
  });
});

describe('chips after a spreadsheet (Verifies: IMP-R5, IMP-R17)', () => {
  const { plan } = imported(tableOf('spreadsheet-damage.csv'));
  test('cases 18, 19 and 21', () => {
    expect(plan.rows.map((row) => [row.label, row.chip?.code ?? row.animal?.notes])).toEqual([
      ['0012', '036012345678901'],
      ['0013', 'chip: 9.85112E+14'],
      ['0014', 'chip: 9,85112E+14'],
      ['0015', 'chip: 985112000000000'],
      ['0016', 'chip: 36012345678901'],
      ['0017', '4520382E12'],
      ['0018', '492E153288'],
      ['0019', '0A11AB34CD'],
      ['0020', '0A11AB34CD'],
      ['0021', 'chip: OA11AB34CD'],
      ['0022', '031820285'],
    ]);
    expect(plan.rows.filter((row) => reasons(row).includes('chip-not-taken')).map((row) => row.row)).toEqual([
      3, 4, 5, 6, 11,
    ]);
    expect(plan.rows.filter((row) => reasons(row).includes('chip-twice')).map((row) => row.row)).toEqual([9, 10]);
  });
});

test('a hundred thousand rows', () => {
  const lines = Array.from({ length: 100_000 }, (_, at) => `${at},Pip,cat,2026-05-10`);
  const { plan, table } = imported(readTable(`Number,Name,Species,Came in\n${lines.join('\n')}`));
  expect(table.rows.at(-1)).toMatchObject({ row: 100_001, line: 100_001 });
  expect(plan.counts).toEqual({ accepted: 100_000, doubtful: 0, refused: 0, alreadyThere: 0 });
});
