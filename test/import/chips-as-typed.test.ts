import { expect, test } from 'vitest';
import { readChip } from '../../src/core/chip/read-chip.js';
import { imported, tableOf } from './read-file.js';

// Publisher of the chips and what was done to them: files/README.md. Verifies: IMP-R17
const table = tableOf('city-d-chips.csv');
const typed = table.rows.map((row) => row.cells[1] ?? '');
const rows = imported(table).plan.rows;

test('every chip is kept as typed or named in a doubt, never changed in a digit', () => {
  const counts = { kept: 0, blank: 0, refused: 0 };
  for (const [at, row] of rows.entries()) {
    const cell = typed[at] ?? '';
    if (cell === '' || cell === 'N/A') {
      counts.blank++;
      expect(row.chip).toBeNull();
      expect(row.animal?.notes).toBe('');
    } else if (row.chip === null) {
      counts.refused++;
      expect(row.reasons.map((reason) => reason.say)).toContain('import.chip-not-taken');
      expect(row.animal?.notes).toBe(`chip: ${cell}`);
    } else {
      counts.kept++;
      expect(row.chip.raw).toBe(cell);
      expect(row.chip.code).toBe(cell.replace(/^FDXB|-/g, '').toUpperCase());
    }
  }
  expect(counts).toEqual({ kept: 155, blank: 38, refused: 4 });
});

test('the four that a person has to look at', () => {
  const refused = typed.filter((cell) => cell !== '' && cell !== 'N/A' && !readChip(cell).ok);
  expect(refused.sort()).toEqual(['0a1104ob0d', '463892C29', 'OA10191308', 'OA106E2C05']);
});

test('by class', () => {
  const classes: Record<string, number> = {};
  for (const { chip } of rows) if (chip !== null) classes[chip.class] = (classes[chip.class] ?? 0) + 1;
  // 94 of 15 digits and one behind FDXB; 21 of 9 digits and one with dashes.
  expect(classes).toEqual({ iso: 95, '9-digit': 22, '10-character': 38 });
});

test('a chip on several animals is doubtful on each', () => {
  const codes = rows.flatMap((row) => (row.chip === null ? [] : [row.chip.code]));
  const twice = codes.filter((code, at) => codes.indexOf(code) !== at || codes.lastIndexOf(code) !== at);
  const marked = rows.filter((row) => row.reasons.some((reason) => reason.say === 'import.chip-twice'));
  expect(twice.length).toBe(12);
  expect(marked.map((row) => row.chip?.code).sort()).toEqual(twice.sort());
});
