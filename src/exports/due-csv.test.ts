import { expect, it } from 'vitest';
import type { DueLine } from '../api/wire.js';
import { readTable } from '../core/intake/file/table.js';
import type { DueRow } from '../log/read-rows.js';
import { english } from '../words/english.js';
import { sayFor } from '../words/say.js';
import { csvFile } from './csv.js';
import { dueCsv, dueFileName } from './due-csv.js';
import { dueLine } from './due-line.js';

const say = sayFor({ language: english, zone: 'UTC' });
const row: DueRow = {
  animal: 'kit-1',
  section: 'clean',
  schedule: 'roundworm',
  status: 'overdue',
  dose: 2,
  earliest: '2026-03-01',
  due: '2026-03-01',
  overdue_after: '2026-03-04',
  latest: null,
  hold_code: null,
  hold_until: null,
  because: JSON.stringify({ say: 'desk.due.none.section' }),
  protocol: 'starter@1',
};
const kitten = { label: '0012', name: 'Pip, the "small"', kennel: 'C1', litter: 'Teal' };
const line: DueLine = dueLine(row, kitten, { section: 'Kittens, clean', schedule: 'Roundworm' }, say);

it('writes each line under names that stay, with days as days and an empty cell for what there is not', () => {
  const table = readTable(dueCsv([line], false, null));
  expect(table.problems).toEqual([]);
  expect(table.headings.join(' ')).toBe(
    'animal label name section kennel schedule dose status earliest_on due_on overdue_after latest_on hold hold_until reason protocol litter',
  );
  expect(table.rows.map(({ cells }) => cells)).toEqual([
    [
      ...['kit-1', '0012', 'Pip, the "small"', 'Kittens, clean', 'C1', 'Roundworm', '2', 'overdue'],
      ...['2026-03-01', '2026-03-01', '2026-03-04', '', '', '', line.reason, 'starter@1', 'Teal'],
    ],
  ]);
});

it('says of invented data that it is, and in a row about no animal why nothing can be worked out', () => {
  const table = readTable(dueCsv([line], true, 'No protocol is signed.'));
  const cell = (at: number, heading: string) => table.rows[at]?.cells[table.headings.indexOf(heading)];
  expect([cell(0, 'animal'), cell(0, 'reason'), cell(0, 'invented')]).toEqual(['', 'No protocol is signed.', 'yes']);
  expect([cell(1, 'animal'), cell(1, 'invented')]).toEqual(['kit-1', 'yes']);
});

it('is a file named after its day, marked as UTF-8, which the text alone is not', () => {
  const text = dueCsv([line], false, null);
  const file = csvFile(dueFileName('2026-03-12' as never), text);
  expect(file).toEqual({ name: 'due-2026-03-12.csv', type: 'text/csv;charset=utf-8', text: `\uFEFF${text}` });
  expect(text.startsWith('animal,')).toBe(true);
});
