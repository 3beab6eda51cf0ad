import { expect, it } from 'vitest';
import { readTable } from '../core/intake/file/table.js';
import type { ReadRow } from '../core/intake/taken-in.js';
import { say } from '../words/say.js';
import { notTaken } from './not-taken.js';

const read = (row: number, verdict: ReadRow['verdict'], why: string[]): ReadRow =>
  ({ row, verdict, reasons: why.map((id) => ({ say: 'parts.left-unnamed', with: { id } })) }) as never;

it('keeps each row that was left, its number, why, and its cells as they were', () => {
  const table = readTable('number;name;born\n0012;"Pip; the small";12.3.26\n0013;=1+1;\n0014;Moss;x');
  const [first, second, third] = table.rows.map(({ row }) => row);
  const rows = [
    read(first ?? 0, 'accepted', []),
    read(second ?? 0, 'doubtful', ['a', 'b']),
    read(third ?? 0, 'refused', ['c']),
  ];
  const left = notTaken('march.list.csv', table, rows, new Set([first ?? 0]), say);
  expect(left.count).toBe(2);
  expect(left.file.name).toBe(`${say('desk.import.rest-file')}-march.list.csv`);
  const again = readTable(left.file.text);
  expect(again.headings.slice(2)).toEqual(['number', 'name', 'born']);
  expect(again.rows.map(({ cells }) => [cells[0], ...cells.slice(2)])).toEqual([
    [String(second), '0013', "'=1+1", ''],
    [String(third), '0014', 'Moss', 'x'],
  ]);
  // A row that could have come in says that nobody took it; one that could not says only why.
  const why = again.rows.map(({ cells }) => cells[1] ?? '');
  expect(why[0]).toContain(say('desk.import.rest-not-ticked'));
  expect(why[1]).not.toContain(say('desk.import.rest-not-ticked'));
});
