import { describe, expect, test } from 'vitest';
import type { CalendarDate } from '../../src/core/calendar.js';
import type { SectionId } from '../../src/core/ids.js';
import { type ColumnMapping, columnsInWords } from '../../src/core/intake/columns/fields.js';
import { guessMapping, noticesOf } from '../../src/core/intake/columns/guess-mapping.js';
import { readTable as readText } from '../../src/core/intake/file/table.js';
import { planImport } from '../../src/core/intake/plan-import.js';
import type { ImportContext, ReadRow } from '../../src/core/intake/taken-in.js';
import { imported, reasons, tableOf, today } from './read-file.js';

// Small files of our own, every animal invented; what each row must become was worked out by hand from the calendar.
const verdicts = (rows: readonly ReadRow[]): string[] =>
  rows.map((row) => [row.label, row.verdict, ...reasons(row)].join(' '));
const birth = ({ animal }: ReadRow): string =>
  animal === null ? 'none' : `${animal.born.basis} ${animal.born.earliest}..${animal.born.latest}`;
const day = (text: string) => text as CalendarDate;
const base: ImportContext = {
  file: 'f'.repeat(64),
  today,
  sections: [],
  dateOrder: null,
  decimal: null,
  weightUnit: null,
  places: {},
  ageDay: null,
  tellsNothing: [],
  alsoLeft: false,
};

describe('ages without a day (Verifies: IMP-R8, IMP-R21)', () => {
  const table = tableOf('ages-without-day.csv');
  test('no row is accepted by an age before somebody has said when it was true', () => {
    const { plan } = imported(table);
    expect(verdicts(plan.rows)).toEqual([
      'T1 doubtful age-day-asked',
      'T2 doubtful age-day-asked',
      'T3 doubtful age-day-asked',
      'T4 doubtful age-day-asked',
      'T5 accepted',
      'T6 doubtful age-not-read',
    ]);
    expect(plan.ages).toEqual({ rows: 4, example: '1 year 7 months' });
    // Even when such a row is taken: the birth is not known, with the arrival as its last day.
    expect(birth(plan.rows[1] as ReadRow)).toBe('unknown 2001-04-01..2026-04-01');
  });
  test('the list was made on 1 May 2026', () => {
    const { plan } = imported(table, { ageDay: day('2026-05-01') });
    expect(plan.ages).toBeNull();
    expect(plan.rows.map((row) => [row.label, row.verdict, birth(row)].join(' '))).toEqual([
      // 19 full months: born after 1 Sep 2024 and not after 1 Oct 2024; it was in care from 21 Sep 2024 on.
      'T1 accepted estimated 2024-09-02..2024-09-21',
      'T2 accepted estimated 2026-01-02..2026-02-01',
      'T3 accepted estimated 2026-04-11..2026-04-17',
      // 2 days on 1 May is born on 29 April, a day after it arrived: not taken.
      'T4 doubtful unknown 2001-04-28..2026-04-28',
      'T5 accepted unknown 2001-04-28..2026-04-28',
      'T6 doubtful unknown 2001-04-28..2026-04-28',
    ]);
    expect(reasons(plan.rows[3] as ReadRow)).toEqual(['age-after-arrival']);
  });
  test('as of the arrival: one born in the shelter that day cannot have been 19 months old', () => {
    const { plan } = imported(table, { ageDay: 'arrival' });
    expect(verdicts(plan.rows).slice(0, 4)).toEqual([
      'T1 doubtful born-here-differs',
      'T2 accepted',
      'T3 accepted',
      'T4 accepted',
    ]);
    expect(plan.rows.map(birth).slice(0, 4)).toEqual([
      'unknown 1999-09-21..2024-09-21',
      'estimated 2025-12-02..2026-01-01',
      'estimated 2026-03-31..2026-04-06',
      'estimated 2026-04-26..2026-04-26',
    ]);
  });
  test('not to be used: accepted, and the birth stays unknown', () => {
    const { plan } = imported(table, { ageDay: 'not-used' });
    expect(plan.counts.accepted).toBe(6);
    expect(plan.rows.every((row) => row.animal?.born.basis === 'unknown')).toBe(true);
  });
  test('a column with the day of the age needs no answer, and its blank cells are doubts', () => {
    const text =
      'Tag no,Species,Came in,Age,Age on\nT1,cat,2026-04-01,3 months,2026-05-01\nT2,cat,2026-04-01,3 months,';
    const { plan } = imported(readText(text));
    expect(verdicts(plan.rows)).toEqual(['T1 accepted', 'T2 doubtful age-without-date']);
    expect(birth(plan.rows[0] as ReadRow)).toBe('estimated 2026-01-02..2026-02-01');
  });
});

describe('columns of deaths and departures that are not used (Verifies: IMP-R22)', () => {
  const table = tableOf('gone-not-used.csv');
  const guess = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const plan = (more: Partial<ImportContext> = {}, columns: ColumnMapping = {}) =>
    planImport(table, { ...guess.mapping, ...columns }, { ...base, ...more }, []);
  test('are pointed at, and the rows in which they tell are not accepted', () => {
    const { rows, mayTell } = plan();
    expect(mayTell).toEqual([
      { column: 4, heading: 'Status', rows: 3, example: 'Adopted' },
      { column: 5, heading: 'Last move', rows: 4, example: '2026-02-01' },
      { column: 6, heading: 'Cause of death', rows: 1, example: 'pneumonia' },
    ]);
    expect(rows.filter((row) => row.verdict === 'accepted').map((row) => row.label)).toEqual(['G1', 'G4']);
    expect(rows[4]?.reasons).toEqual([
      { say: 'import.may-have-left', with: { heading: 'Last move', cell: '2026-03-01' } },
    ]);
  });
  test('the status is how it left, the days are not of leaving', () => {
    const { rows, mayTell } = plan({ tellsNothing: [5] }, { leftHow: [4] });
    expect(verdicts(rows)).toEqual([
      'G1 accepted',
      'G2 doubtful left-without-date',
      'G3 refused left-how-gone',
      'G4 accepted',
      'G5 accepted',
      'G6 doubtful left-without-date',
    ]);
    // What a column tells of an animal that is known to be dead changes nothing, so it is asked no more.
    expect(mayTell).toEqual([]);
  });
  test('they tell nothing of it: every row is accepted', () => {
    const { counts, mayTell } = plan({ tellsNothing: [4, 5, 6] });
    expect([counts.accepted, mayTell]).toEqual([6, []]);
  });
  test.each([
    ['Died on', '2026-05-20', 'marked-dead'],
    ['Deceased', 'yes', 'marked-dead'],
    ['deceaseddate', '20.05.2026', 'marked-dead'],
    ['Deceased', 'pneumonia', 'may-have-left'],
    ['Rehomed to', 'J. Example', 'may-have-left'],
    ['Transfer', 'yes', 'may-have-left'],
    ['Alive', 'no', 'may-have-left'],
    ['State', 'released', 'may-have-left'],
    ['State', 'returned to owner', 'may-have-left'],
  ])('"%s: %s"', (heading, cell, why) => {
    const { rows } = imported(readText(`Id,Species,Came in,${heading}\nA1,cat,2026-05-10,${cell}`)).plan;
    expect(verdicts(rows)).toEqual([`A1 ${why === 'marked-dead' ? 'refused' : 'doubtful'} ${why}`]);
  });
  test.each([
    ['Alive', 'yes'],
    ['State', 'available for adoption'],
    ['State', 'adoption pending'],
    ['State', 'in foster care'],
    ['Intake type', 'transfer'],
    ['Intake reason', 'owner died'],
    ['Why in', 'euthanasia request'],
    ['Transferred from', 'Elsewhere'],
    ['Vaccinated on', '2026-05-20'],
    ['Neuter date', '2026-05-20'],
    ['Deceased', 'no'],
  ])('"%s: %s" is no sign of it', (heading, cell) => {
    const { rows } = imported(readText(`Id,Species,Came in,${heading}\nA1,cat,2026-05-10,${cell}`)).plan;
    expect(verdicts(rows)).toEqual(['A1 accepted']);
  });
});

describe('in foster care, and back again (Verifies: IMP-R23)', () => {
  const sections = [
    { id: 'homes' as SectionId, name: 'Foster homes', kennels: [] },
    { id: 'cattery' as SectionId, name: 'Cattery', kennels: [] },
  ];
  test('by hand, row by row', () => {
    const places = { foster: 'homes', 'foster to adopt': 'homes', 'adopted by foster home': 'homes' };
    const { plan } = imported(tableOf('fostered-and-back.csv'), {
      sections,
      places: places as unknown as ImportContext['places'],
    });
    expect(plan.rows.map((row) => [verdicts([row])[0], row.animal?.section ?? '-'].join(' / '))).toEqual([
      'F1 accepted / homes',
      'F2 accepted / cattery',
      'F3 accepted / cattery',
      'F4 refused left-already / -',
      'F5 doubtful returned-before-leaving / cattery',
      'F6 accepted / homes',
      'F7 doubtful foster-or-left / homes',
      'F8 doubtful returned-though-gone / cattery',
      'F9 accepted / cattery',
    ]);
    expect(plan.rows.every((row) => row.left === null)).toBe(true);
  });
  test('the foster homes are asked about once', () => {
    const { plan } = imported(tableOf('fostered-and-back.csv'), { sections });
    expect(plan.places.map((one) => one.place)).toEqual(['Foster', 'Foster to adopt', 'Adopted by foster home']);
  });
});

describe('cells that cannot be read (Verifies: IMP-R24)', () => {
  const { plan, table } = imported(tableOf('bad-cells.csv'));
  test('leave their column in use and are doubts of their rows', () => {
    const { mapping } = guessMapping(
      table.headings,
      table.rows.map((row) => row.cells),
    );
    expect(columnsInWords(table.headings, mapping)).toEqual({
      'Tag no': 'label',
      Name: 'name',
      Species: 'species',
      DOB: 'born',
      'Date in': 'arrived',
      Sex: 'sex',
      Microchip: 'chip',
      'Wt lb': 'weight',
    });
    expect(verdicts(plan.rows)).toEqual([
      'B1 accepted',
      'B2 doubtful not-a-day',
      'B3 doubtful no-such-day weight-not-taken',
      'B4 doubtful chip-not-taken',
      'B5 doubtful not-a-day',
      'B6 doubtful no-such-day arrival-missing',
      'B7 doubtful sex-not-understood',
      'B8 doubtful born-in-future',
      'B9 refused not-a-cat',
      'B10 accepted',
    ]);
    expect(birth(plan.rows[9] as ReadRow)).toBe('known 2025-04-11..2025-04-11');
  });
  test('even when hardly any cell of the column can be read', () => {
    const rows = ['spring', 'last year', 'young', 'old', '?'].map((born, at) => `A${at},cat,2026-05-10,${born}`);
    const read = imported(readText(`Id,Species,Came in,Date of birth\n${rows.join('\n')}`)).plan.rows;
    expect(read.map((row) => row.verdict)).toEqual(['doubtful', 'doubtful', 'doubtful', 'doubtful', 'accepted']);
  });
});

describe('notices are about the columns as they are taken now (Verifies: IMP-R25)', () => {
  const table = readText('Ref,Called,Beast,Came,Where\n1,Pip,cat,2026-05-10,Attic\n2,Moo,cat,2026-05-11,Attic');
  const guess = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const told = (mapping: ColumnMapping) => noticesOf(table.headings, guess, mapping).map((one) => one.say.slice(7));
  test('each goes when its column is chosen and comes back when it is taken away', () => {
    expect(told({})).toEqual(['no-species-column', 'no-name-column', 'no-arrival-column', 'no-place-column']);
    expect(told({ species: [2], arrived: [3] })).toEqual(['no-name-column', 'no-place-column']);
    expect(told({ species: [2], arrived: [3], label: [0], place: [4] })).toEqual([]);
    expect(told({ arrived: [3], label: [0], place: [4] })).toEqual(['no-species-column']);
  });
  test('a lone day was taken for something only as long as it is', () => {
    const lone = readText('Id,Species,Date\nA1,cat,2026-05-01');
    const guessed = guessMapping(
      lone.headings,
      lone.rows.map((row) => row.cells),
    );
    const now = (mapping: ColumnMapping) => noticesOf(lone.headings, guessed, mapping).map((one) => one.say.slice(7));
    expect(now(guessed.mapping)).toEqual(['date-taken-as-arrived', 'no-place-column']);
    expect(now({ ...guessed.mapping, arrived: [], left: [2] })).toContain('date-taken-as-left');
    expect(now({ ...guessed.mapping, arrived: [], weighedOn: [2] })).not.toContain('date-taken-as-arrived');
  });
});
