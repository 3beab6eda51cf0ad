import { describe, expect, test } from 'vitest';
import { readChip } from '../core/chip/read-chip.js';
import { readTable } from '../core/intake/file/table.js';
import type { AnimalRow } from '../log/read-rows.js';
import { animalsCsv, chipInGroups } from './animals-csv.js';

const row = (more: Partial<AnimalRow>): AnimalRow => ({
  animal: '0198-a',
  label: '0012',
  name: 'Pip',
  litter: null,
  section: 's1',
  kennel: 'C1',
  sex: 'female',
  neutered: 'no',
  born_earliest: '2026-03-02',
  born_latest: '2026-03-02',
  arrived_on: '2026-05-10',
  left_on: null,
  left_how: null,
  chip: null,
  weight_g: 650,
  weighed_on: '2026-06-01',
  origin_key: null,
  ...more,
});

// Verifies: IMP-R17
describe('chips survive a spreadsheet', () => {
  test.each([
    ['985112006831826', '985-112-006-831-826'],
    ['036012345678901', '036-012-345-678-901'],
    ['031820285', '031-820-285'],
    ['4520382E12', '45203-82E12'],
    ['0A11AB34CD', '0A11A-B34CD'],
  ])('%s is written %s, is no number, and is read again', (chip, written) => {
    expect(chipInGroups(chip)).toBe(written);
    expect(Number.isNaN(Number(written))).toBe(true);
    const read = readChip(written);
    expect(read.ok && read.value.code).toBe(chip);
  });
});

describe('animals as CSV', () => {
  const names = (section: string) => (section === 's1' ? 'Kittens, clean' : section);
  test('every cell comes back, also quotes, commas and line breaks; no formula', () => {
    const rows = [row({ name: 'NUGGET "GRR"', chip: '985112006831826' }), row({ name: '=1+1', litter: 'a\nb' })];
    const table = readTable(animalsCsv(rows, names, false));
    const cell = (at: number, heading: string) => table.rows[at]?.cells[table.headings.indexOf(heading)];
    expect(table.problems).toEqual([]);
    expect([cell(0, 'label'), cell(0, 'name'), cell(0, 'section')]).toEqual(['0012', 'NUGGET "GRR"', 'Kittens, clean']);
    expect([cell(1, 'name'), cell(1, 'litter'), cell(1, 'left_on')]).toEqual(["'=1+1", 'a\nb', '']);
    expect(table.headings).not.toContain('invented');
  });
  test('the invented shelter says so in every row', () => {
    const table = readTable(animalsCsv([row({})], names, true));
    expect([table.headings.at(-1), table.rows[0]?.cells.at(-1)]).toEqual(['invented', 'yes']);
  });
});
