import { describe, expect, test } from 'vitest';
import { at, day, kitten, testLog } from '../../../test/support/log.js';
import { AnimalId } from '../../core/ids.js';
import { guessMapping } from '../../core/intake/columns/guess-mapping.js';
import { readTable } from '../../core/intake/file/table.js';
import { planImport } from '../../core/intake/plan-import.js';
import type { ReadRow } from '../../core/intake/taken-in.js';
import { buildWorld } from '../views/world.js';
import { alreadyThere, draftsFromFile } from './from-file.js';

const today = day('2026-06-15');
const file = { name: 'list.csv', digest: 'a'.repeat(64), accepted: 0, doubtful: 0, refused: 0, columns: {} };

function rowsOf(text: string, alsoLeft = false): readonly ReadRow[] {
  const table = readTable(text);
  const { mapping } = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const context = { file: file.digest, today, sections: [], dateOrder: null, decimal: null, weightUnit: 'g' as const };
  return planImport(table, mapping, { ...context, places: {}, ageDay: null, tellsNothing: [], alsoLeft }, []).rows;
}
const drafts = (text: string, alsoLeft = false, now = at('2026-06-15', '08:00')) =>
  draftsFromFile(
    rowsOf(text, alsoLeft).map((row, index) => ({ row, animal: AnimalId.parse(`animal-${index}`) })),
    file,
    now,
    'UTC',
  );

const text = [
  'Id,Name,Species,Intake date,Outcome date,Outcome type,Chip,Weight g,Weighed on',
  'A1,Pip,cat,2026-05-10,,,985112006831826,650,2026-06-01',
  'A2,Moo,cat,2026-05-10,,,,700,',
  'A3,Tux,cat,2026-05-10,2026-06-02,adoption,,,',
  'A4,Rex,dog,2026-05-10,,,,,',
].join('\n');

describe('records of an import (Verifies: IMP-R18, IMP-R19)', () => {
  test('a weight keeps its day; one without a day is doubtful', () => {
    const weighings = drafts(text).filter((one) => one.kind === 'animal-weighed');
    expect(weighings.map(({ subject, happenedAt, body }) => [subject, happenedAt, body])).toEqual([
      ['animal:animal-0', '2026-06-01T12:00:00.000Z', { grams: 650, entered: '650', doubtful: false }],
      ['animal:animal-1', '2026-06-15T08:00:00.000Z', { grams: 700, entered: '700', doubtful: true }],
    ]);
  });
  test('a weight of today is not put into the future', () => {
    const [weighing] = drafts(text.replace('2026-06-01', '2026-06-15')).filter((one) => one.kind === 'animal-weighed');
    expect(weighing?.happenedAt).toBe('2026-06-15T08:00:00.000Z');
  });
  test('refused rows give nothing; the file itself is on record', () => {
    expect(drafts(text).map((one) => one.kind)).toEqual([
      'animal-taken-in',
      'animal-weighed',
      'chip-scanned',
      'animal-taken-in',
      'animal-weighed',
      'file-imported',
    ]);
  });
  test('animals that left, when asked for', () => {
    const log = testLog();
    log.add(drafts(text, true));
    const world = buildWorld(log.records);
    expect(world.animals.get(AnimalId.parse('animal-2'))?.left).toEqual({ on: '2026-06-02', how: 'adopted' });
    expect(world.animals.get(AnimalId.parse('animal-0'))?.chip?.code).toBe('985112006831826');
  });
  test('what was brought in is found again, and so is an animal entered by hand', () => {
    const log = testLog();
    log.add(drafts(text));
    log.one('animal-taken-in', 'animal:by-hand', kitten('Lu', '2026-04-01', { label: 'B7' }), at('2026-06-15'));
    expect(alreadyThere(buildWorld(log.records)).map(({ key, label, chip }) => [key, label, chip])).toEqual([
      ['A1 2026-05-10', 'A1', '985112006831826'],
      ['A2 2026-05-10', 'A2', null],
      [null, 'B7', null],
    ]);
  });
});
