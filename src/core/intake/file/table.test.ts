import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTable } from './table.js';

const cells = (text: string) => readTable(text).rows.map((row) => row.cells);
const problems = (text: string) => readTable(text).problems.map((problem) => problem.say);

describe('sign between columns (Verifies: IMP-R3)', () => {
  test.each([
    ['comma', 'a,b\n1,2', ','],
    ['semicolon with decimal commas', 'Name;Weight kg\nPip;0,65\nMoo;1,2', ';'],
    ['semicolon, a comma inside a heading', 'Name;Weight, kg\nPip;0,65', ';'],
    ['tab', 'a\tb, c\n1\t2', '\t'],
    ['bar', 'a|b|c\n1|2|3', '|'],
    ['comma, semicolons inside a quoted heading', '"a;b;c;d",e,f\n1,2,3', ','],
    ['one column', 'Name\nPip', ','],
  ])('%s', (_, text, delimiter) => {
    expect(readTable(text).delimiter).toBe(delimiter);
  });
  test('case 20: the cells of a semicolon file', () => {
    expect(cells('Name;Weight kg\nPip;0,65\nMoo;1,2')).toEqual([
      ['Pip', '0,65'],
      ['Moo', '1,2'],
    ]);
  });
  test('a person may name another sign', () => {
    expect(readTable('a;b,c\n1;2,3', ',').headings).toEqual(['a;b', 'c']);
  });
  test('a line that names the sign is no heading, and counts as a row', () => {
    const table = readTable('sep=;\na;b\n1;2');
    expect([table.delimiter, table.headings, table.rows[0]?.row]).toEqual([';', ['a', 'b'], 3]);
  });
  test('mark and blanks around headings and cells are dropped', () => {
    const table = readTable('\uFEFF Animal ID , Name\u00a0\n A1 , Pip ');
    expect([table.headings, table.rows[0]?.cells]).toEqual([
      ['Animal ID', 'Name'],
      ['A1', 'Pip'],
    ]);
  });
});

describe('rows and their numbers (Verifies: IMP-R4)', () => {
  test('blank rows are skipped and still counted', () => {
    const table = readTable('\n\na,b\r\n1,2\r\n,\r\n\r3,4\r');
    expect(table.rows.map((row) => [row.row, row.line, ...row.cells])).toEqual([
      [4, 4, '1', '2'],
      [7, 7, '3', '4'],
    ]);
  });
  test('a cell with line breaks moves lines but not rows', () => {
    const table = readTable('a,b\n"x\ny",1\n2,3');
    expect(table.rows.map((row) => [row.row, row.line, row.cells[0]])).toEqual([
      [2, 2, 'x\ny'],
      [3, 4, '2'],
    ]);
  });
  test('quotation marks inside values', () => {
    expect(cells('a,b\n"""SARAH""",1\nNUGGET "GRR",2')).toEqual([
      ['"SARAH"', '1'],
      ['NUGGET "GRR"', '2'],
    ]);
  });
  test('too few and too many values', () => {
    const table = readTable('a,b,c\n1\n1,2,3,4\n1,2,3,,,\n5,6,7');
    expect(table.rows.map((row) => row.state)).toEqual(['short', 'broken', 'whole', 'whole']);
    expect(table.problems).toEqual([
      { say: 'import.too-few-cells', with: { row: 2, cells: 1, columns: 3 } },
      { say: 'import.too-many-cells', with: { row: 3, cells: 4, columns: 3 } },
    ]);
    expect(table.rows[0]?.cells).toEqual(['1', '', '']);
  });
  test('a quotation mark never closed: the rows before it stay', () => {
    const table = readTable('id,name\n1,Pip\n2,"Moo\n3,Tux\n');
    expect(table.rows.map((row) => [row.row, row.state])).toEqual([
      [2, 'whole'],
      [3, 'broken'],
    ]);
    expect(table.problems).toEqual([{ say: 'import.quote-not-closed', with: { row: 3, line: 3 } }]);
  });
  test('a quotation mark closed by chance further down', () => {
    const table = readTable('id,name,sex\n1,"Pip,f\n2,Moo,m\n3,"Tux",f\n4,Lu,m');
    const [first] = table.rows;
    expect([first?.row, first?.state]).toEqual([2, 'broken']);
    expect(table.rows.at(-1)?.cells).toEqual(['4', 'Lu', 'm']);
  });
  test('a note of several lines with commas is no swallowed row', () => {
    expect(readTable('id,name,note\n1,Pip,"shy, soft\nlikes tuna"').rows[0]?.state).toBe('whole');
  });
  test.each([
    ['nothing', '', ['import.empty-file']],
    ['only headings', 'Animal ID,Name\n', ['import.only-headings']],
    ['one column', 'Name\nPip', ['import.one-column']],
    ['a heading twice', 'Name,Name\nPip,Moo', ['import.heading-twice']],
    ['no headings', 'Pip,03/08/2026\nMoo,03/09/2026', ['import.no-headings']],
  ])('%s', (_, text, expected) => {
    expect(problems(text)).toEqual(expected);
  });
  test('every row of any table is found again', () => {
    const cell = fc.string({ unit: fc.constantFrom(...'ab ",;\n0é'), maxLength: 6 });
    const quoted = (value: string) => `"${value.replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 8 }), (rows) => {
        const text = ['x,y', ...rows.map((row) => row.map(quoted).join(','))].join('\n');
        const kept = rows
          .map((row) => row.map((value) => value.trim()))
          .filter((row) => row.some((value) => value !== ''));
        expect(cells(text)).toEqual(kept);
      }),
    );
  });
  test('any text: a table, never an exception', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => Array.isArray(readTable(text).rows)));
  });
});

describe('text stays text (Verifies: IMP-R5)', () => {
  test('zeros in front and powers of ten', () => {
    expect(cells('id,chip\n0012,036012345678901\n0700,4520382E12')).toEqual([
      ['0012', '036012345678901'],
      ['0700', '4520382E12'],
    ]);
  });
});
