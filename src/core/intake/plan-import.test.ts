import { describe, expect, test } from 'vitest';
import type { CalendarDate } from '../calendar.js';
import type { SectionId } from '../ids.js';
import { guessMapping } from './columns/guess-mapping.js';
import { readHabits } from './columns/habits.js';
import { readTable } from './file/table.js';
import { type AlreadyThere, planImport } from './plan-import.js';
import type { ImportContext } from './taken-in.js';

const today = '2026-06-15' as CalendarDate;
const sections = [{ id: 's1' as SectionId, name: 'Clean kittens', kennels: ['C1', 'C2'] }];

function plan(text: string, more: Partial<ImportContext> = {}, known: readonly AlreadyThere[] = []) {
  const table = readTable(text);
  const { mapping } = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const { dateOrder, decimal, weightUnit } = readHabits(table, mapping, today);
  const context = {
    file: 'a'.repeat(64),
    today,
    sections,
    dateOrder,
    decimal,
    weightUnit,
    places: {},
    ageDay: null,
    tellsNothing: [],
    alsoLeft: false,
    ...more,
  };
  return planImport(table, mapping, context, known);
}
/** One row in a line: verdict, then the reasons. */
const told = (text: string, more: Partial<ImportContext> = {}, known: readonly AlreadyThere[] = []) =>
  plan(text, more, known).rows.map((row) =>
    [row.verdict, ...row.reasons.map((reason) => reason.say.slice(7))].join(' '),
  );

const known = (more: Partial<AlreadyThere>): AlreadyThere => ({
  key: null,
  label: '',
  name: '',
  chip: null,
  arrivedOn: '2026-01-01' as CalendarDate,
  leftOn: null,
  ...more,
});
const asKnown = (text: string): AlreadyThere[] =>
  plan(text).rows.flatMap((row) =>
    row.animal === null
      ? []
      : [
          known({
            key: row.animal.origin.key,
            label: row.label,
            name: row.name,
            chip: row.chip?.code ?? null,
            arrivedOn: row.animal.arrivedOn,
          }),
        ],
  );

describe('a row as an animal', () => {
  test('every field (Verifies: IMP-R5, IMP-R20)', () => {
    const text = [
      'Animal ID,Name,Species,Sex,Date of birth,Intake date,Location,Kennel,Litter,Colour,Markings,Collar,Microchip,Weight kg,Weighed on,Notes',
      '0012,*Pip,Cat,Spayed Female,2026-03-02,2026-05-10,clean kittens,C1,Litter 7,black,white bib,red,036012345678901,0.65,2026-06-01,shy',
    ].join('\n');
    const [row] = plan(text).rows;
    expect(row?.reasons).toEqual([]);
    expect(row?.animal).toEqual({
      label: '0012',
      name: '*Pip',
      litter: { id: `${'a'.repeat(16)}.litter-7`, name: 'Litter 7' },
      sex: 'female',
      neutered: 'yes',
      born: { earliest: '2026-03-02', latest: '2026-03-02', basis: 'known' },
      arrivedOn: '2026-05-10',
      section: 's1',
      kennel: 'C1',
      marks: { collar: 'red', coat: 'black', mark: 'white bib', photo: null },
      notes: 'shy',
      origin: { file: 'a'.repeat(64), row: 2, key: '0012 2026-05-10' },
    });
    expect(row?.chip).toEqual({ raw: '036012345678901', code: '036012345678901', class: 'iso' });
    expect(row?.weight).toEqual({ grams: 650, entered: '0.65', on: '2026-06-01' });
  });
  test('nothing to find it by', () => {
    expect(told('Id,Name,Species,Intake date\n,,cat,2026-05-10')).toEqual(['refused nothing-to-find-it-by']);
  });
  test('species (Verifies: IMP-R6)', () => {
    const text = 'Id,Species,Intake date\nA1,cat,2026-05-10\nA2,dog,2026-05-10\nA3,,2026-05-10';
    expect(told(text)).toEqual(['accepted', 'refused not-a-cat', 'doubtful species-blank']);
  });
  test('a broken row keeps its reason, a short one is doubtful (Verifies: IMP-R4)', () => {
    expect(told('Id,Species,Intake date\nA1,cat,2026-05-10,x\nA2,cat\nA3,cat,2026-05-11')).toEqual([
      'refused too-many-cells',
      'doubtful too-few-cells arrival-missing',
      'accepted',
    ]);
  });
  test.each([
    ['*', 'doubtful name-is-a-sign'],
    ['a638369', 'doubtful name-is-a-number'],
    ['A638369*julia', 'doubtful name-is-a-number'],
    ['COUNTY CAT #341158', 'doubtful name-is-a-number'],
    ['*unknown', 'doubtful name-means-none'],
    ['PadmÃ©', 'doubtful letters-damaged'],
    ['*lewis kitten 2', 'accepted'],
    ["*lila's kitten 3", 'accepted'],
    ['Dav-3', 'accepted'],
    ['Akiko (Snow)', 'accepted'],
    ['', 'accepted'],
  ])('name "%s" (Verifies: IMP-R12)', (name, verdict) => {
    expect(told(`Id,Name,Species,Intake date\nA638369,${name},cat,2026-05-10`)).toEqual([verdict]);
  });
  test('damaged letters: the offer stands as the name, the typed text in the notes (Verifies: IMP-R2)', () => {
    const [row] = plan('Id,Name,Species,Intake date\nA1,PadmÃ©,cat,2026-05-10').rows;
    expect([row?.animal?.name, row?.animal?.notes]).toEqual(['Padmé', 'name: PadmÃ©']);
    expect(row?.reasons[0]?.with).toEqual({ typed: 'PadmÃ©', offered: 'Padmé' });
  });
  test('texts too long are kept whole', () => {
    const long = 'x'.repeat(150);
    const [row] = plan(`Id,Name,Species,Intake date\nA1,${long},cat,2026-05-10`).rows;
    expect([row?.verdict, row?.animal?.name.length, row?.animal?.notes]).toEqual(['doubtful', 120, `name: ${long}`]);
  });
});

describe('dates of a row (Verifies: IMP-R7)', () => {
  test('an order that nothing proves is asked once, and the rows wait', () => {
    const text = 'Id,Species,Intake date\nA1,cat,03/08/2026\nA2,cat,04/05/2026';
    const table = readTable(text);
    const { mapping } = guessMapping(
      table.headings,
      table.rows.map((row) => row.cells),
    );
    expect(readHabits(table, mapping, today).questions.map((question) => [question.about, question.example])).toEqual([
      ['dateOrder', '03/08/2026'],
    ]);
    expect(told(text)).toEqual(Array(2).fill('doubtful date-two-readings arrival-missing'));
    expect(plan(text, { dateOrder: 'month-first' }).rows.map((row) => row.arrivedOn)).toEqual([
      '2026-03-08',
      '2026-04-05',
    ]);
    expect(plan(text, { dateOrder: 'day-first' }).rows.map((row) => row.arrivedOn)).toEqual(
      ['2026-08-03', '2026-05-04'].map((day) => (day > today ? null : day)),
    );
  });
  test('one row that proves it settles the file', () => {
    expect(told('Id,Species,Intake date\nA1,cat,03/08/2026\nA2,cat,03/15/2026')).toEqual(['accepted', 'accepted']);
  });
  test('arrivals that cannot be', () => {
    const text = 'Id,Species,Intake date\nA1,cat,2031-03-30\nA2,cat,2026-02-31\nA3,cat,\nA4,cat,2026-06-15';
    expect(told(text)).toEqual([
      'doubtful arrived-in-future arrival-missing',
      'doubtful no-such-day arrival-missing',
      'doubtful arrival-missing',
      'accepted',
    ]);
  });
});

describe('leaving (Verifies: IMP-R14, IMP-R16)', () => {
  const text = [
    'Id,Species,Intake date,Outcome date,Outcome type,Is dead,Location',
    'A1,cat,2026-05-10,2026-05-20,adoption,FALSE,Clean kittens',
    'A2,cat,2026-05-10,,,FALSE,Clean kittens',
    'A3,cat,2026-05-10,,missing,FALSE,Clean kittens',
    'A4,cat,2026-05-10,,,TRUE,Clean kittens',
    'A5,cat,2026-05-10,,,FALSE,FREEZER',
    'A6,cat,2026-05-10,,adoption,FALSE,Clean kittens',
    'A7,cat,2026-05-10,2026-05-01,adoption,FALSE,Clean kittens',
    'A8,cat,2026-05-10,2031-05-01,adoption,FALSE,Clean kittens',
  ].join('\n');
  test('only animals that are here', () => {
    expect(told(text)).toEqual([
      'refused left-already',
      'accepted',
      'refused left-how-gone',
      'refused marked-dead',
      'refused place-dead',
      'doubtful left-without-date',
      'refused left-already',
      'doubtful left-in-future left-without-date',
    ]);
    expect(plan(text).rows[0]?.reasons[0]?.with).toEqual({ left: { date: '2026-05-20' } });
  });
  test('animals that left as well, if asked: with their leaving and in no section', () => {
    const rows = plan(text, { alsoLeft: true }).rows;
    expect(rows[0]?.left).toEqual({ on: '2026-05-20', how: 'adopted', note: 'adoption' });
    expect(rows[0]?.animal?.section).toBeNull();
    expect(rows[6]?.reasons.map((reason) => reason.say)).toEqual(['import.left-before-arrival']);
    expect(rows.slice(2, 5).map((row) => row.animal)).toEqual([null, null, null]);
  });
});

describe('places (Verifies: IMP-R15)', () => {
  test('are asked about once each, most rows first', () => {
    const text =
      'Id,Species,Intake date,Location\nA1,cat,2026-05-10,Truck\nA2,cat,2026-05-10,LOBBY\nA3,cat,2026-05-10,lobby\nA4,cat,2026-05-10,C2';
    const asked = plan(text);
    expect(asked.places).toEqual([
      { place: 'LOBBY', answerKey: 'lobby', rows: 2 },
      { place: 'Truck', answerKey: 'truck', rows: 1 },
    ]);
    expect(asked.rows.map((row) => row.animal?.section)).toEqual([null, null, null, 's1']);
    const answered = plan(text, { places: { lobby: 's1' as SectionId, truck: 'not-here' } });
    expect(answered.counts).toEqual({ accepted: 3, doubtful: 0, refused: 1, alreadyThere: 0 });
  });
});

describe('chips (Verifies: IMP-R17)', () => {
  const one = (chip: string) => plan(`Id,Species,Intake date,Microchip\nA1,cat,2026-05-10,"${chip}"`).rows[0];
  test.each(['9.85112E+14', '9,85112E+14', '985112000000000', '36012345678901', 'OA11AB34CD', '12345'])(
    '%s is not taken and not lost',
    (chip) => {
      const row = one(chip);
      expect(row?.reasons.map((reason) => reason.say)).toEqual(['import.chip-not-taken']);
      expect([row?.chip, row?.animal?.notes]).toEqual([null, `chip: ${chip}`]);
    },
  );
  test.each([
    ['036012345678901', '036012345678901'],
    ['4520382E12', '4520382E12'],
    ['492E153288', '492E153288'],
    ['0a11ab34cd', '0A11AB34CD'],
    ['031820285', '031820285'],
    ['N/A', undefined],
  ])('%s', (chip, code) => {
    expect(one(chip)?.chip?.code).toBe(code);
    expect(one(chip)?.animal?.notes).toBe('');
  });
  test('one chip on two rows, and on an animal on record', () => {
    const text = 'Id,Species,Intake date,Microchip\nA1,cat,2026-05-10,0a11ab34cd\nA2,cat,2026-05-10,0A11AB34CD';
    const twice = plan(text).rows.map((row) => row.reasons.map((reason) => reason.say));
    expect(twice.every((reasons) => reasons.includes('import.chip-twice'))).toBe(true);
    const [row] = plan('Id,Species,Intake date,Microchip\nA1,cat,2026-05-10,985112006831826', {}, [
      known({ label: 'B1', chip: '985112006831826' }),
    ]).rows;
    expect(row?.reasons).toEqual([{ say: 'import.chip-on-record', with: { chip: '985112006831826', name: 'B1' } }]);
  });
});

describe('weights (Verifies: IMP-R18)', () => {
  test('case 20: a semicolon file with decimal commas', () => {
    const rows = plan('Name;Weight kg\nPip;0,65\nMoo;1,2').rows;
    expect(rows.map((row) => row.weight)).toEqual([
      { grams: 650, entered: '0,65', on: null },
      { grams: 1200, entered: '1,2', on: null },
    ]);
  });
  test('a number with two readings is not taken', () => {
    const text = 'Name;Weight g\nPip;1,234\nMoo;980';
    expect(plan(text).rows.map((row) => row.weight?.grams)).toEqual([undefined, 980]);
    expect(plan(text, { decimal: '.' }).rows[0]?.weight?.grams).toBe(1234);
  });
});

describe('stays of one animal (Verifies: IMP-R13)', () => {
  const head = 'Id,Name,Species,Sex,Intake date,Outcome date\n';
  test('the latest open stay counts', () => {
    const text = `${head}A1,Pip,cat,F,2026-01-10,2026-02-01\nA1,Pip,cat,F,2026-05-10,\nA1,Pip,cat,F,2026-03-10,`;
    const rows = plan(text).rows;
    expect(rows.map((row) => row.verdict)).toEqual(['refused', 'accepted', 'refused']);
    expect(rows[2]?.reasons).toEqual([{ say: 'import.other-stay', with: { row: 3, label: 'A1' } }]);
  });
  test('two animals under one number', () => {
    expect(told(`${head}A1,Pip,cat,F,2026-01-10,\nA1,Moo,cat,M,2026-05-10,`)).toEqual([
      'refused other-stay',
      'doubtful same-number',
    ]);
  });
  test('an open stay before one that ended', () => {
    expect(told(`${head}A1,Pip,cat,F,2026-01-10,\nA1,Pip,cat,F,2026-05-10,2026-06-01`)).toEqual([
      'doubtful later-stay-ended',
      'refused left-already',
    ]);
  });
  test('rows without numbers that describe the same animal', () => {
    const text = 'Name,Species,Intake date\nkitten,cat,2026-05-10\nkitten,cat,2026-05-10';
    const rows = plan(text).rows;
    expect(rows.map((row) => row.verdict)).toEqual(['doubtful', 'doubtful']);
    expect(new Set(rows.map((row) => row.key)).size).toBe(2);
  });
});

describe('bringing in again (Verifies: IMP-R19)', () => {
  const text =
    'Id,Name,Species,Intake date\nA1,Pip,cat,2026-01-10\nA2,Moo,cat,2026-01-11\n,Tux,cat,2026-01-12\n,kitten,cat,2026-05-10\n,kitten,cat,2026-05-10';
  test('the same file adds nothing', () => {
    const again = plan(text, {}, asKnown(text));
    expect(again.counts).toEqual({ accepted: 0, doubtful: 0, refused: 5, alreadyThere: 5 });
  });
  test('a later copy adds only what is new', () => {
    const later = plan(`${text}\nA3,Lu,cat,2026-06-01`, {}, asKnown(text));
    expect(later.counts).toEqual({ accepted: 1, doubtful: 0, refused: 5, alreadyThere: 5 });
  });
  test('an animal entered by hand is found by its number', () => {
    expect(told(text, {}, [known({ label: 'a1', name: 'Pip' })])[0]).toBe('refused already-there');
  });
  test('a number whose animal left before comes in as a new stay', () => {
    const here = known({
      key: 'A1 2025-01-01',
      label: 'A1',
      arrivedOn: '2025-01-01' as CalendarDate,
      leftOn: '2025-02-01' as CalendarDate,
    });
    const [row] = plan(text, {}, [here]).rows;
    expect([row?.verdict, row?.notes.some((note) => note.say === 'import.was-here-before')]).toEqual([
      'accepted',
      true,
    ]);
  });
  test('also when the number itself is the key, and then only once', () => {
    const again = 'Case no,Species,Intake date\nC1,cat,2026-01-10\nC2,cat,2026-01-10';
    const left = known({
      key: 'C1',
      arrivedOn: '2025-01-01' as CalendarDate,
      leftOn: '2025-02-01' as CalendarDate,
      label: 'C1',
    });
    const first = plan(again, {}, [left]).rows[0];
    expect(first?.verdict).toBe('accepted');
    const now = known({ key: first?.animal?.origin.key ?? '', arrivedOn: '2026-01-10' as CalendarDate, label: 'C1' });
    expect(told(again, {}, [left, now])[0]).toBe('refused already-there');
  });
});
