import { describe, expect, test } from 'vitest';
import type { SectionId } from '../../src/core/ids.js';
import { columnsInWords } from '../../src/core/intake/columns/fields.js';
import { guessMapping, noticesOf } from '../../src/core/intake/columns/guess-mapping.js';
import type { AlreadyThere } from '../../src/core/intake/plan-import.js';
import { kinds } from '../../src/log/kinds/index.js';
import { imported, reasons, tableOf } from './read-file.js';

// Publishers and licence caution: files/README.md. The numbers were counted in the files by other means.
const proposed = (name: string) => {
  const table = tableOf(name);
  const guess = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  return [
    columnsInWords(table.headings, guess.mapping),
    noticesOf(table.headings, guess, guess.mapping).map((doubt) => doubt.say),
  ];
};
const birth = (row: { animal: { born: { basis: string; earliest: string; latest: string } } | null }) => {
  const born = row.animal?.born;
  return born === undefined ? null : `${born.basis} ${born.earliest}..${born.latest}`;
};

describe('city-a: ages in words on the day of leaving', () => {
  const file = imported(tableOf('city-a-leaving.csv'));
  const all = imported(tableOf('city-a-leaving.csv'), { alsoLeft: true });
  test('columns (Verifies: IMP-R20)', () => {
    expect(proposed('city-a-leaving.csv')).toEqual([
      {
        AnimalID: 'label',
        Name: 'name',
        DateTime: 'ageOn left',
        OutcomeType: 'leftHow',
        AnimalType: 'species',
        SexuponOutcome: 'sex',
        AgeuponOutcome: 'age',
        Color: 'coat',
      },
      ['import.date-taken-as-left', 'import.no-arrival-column', 'import.no-place-column'],
    ]);
  });
  test('everybody has left; 11 are no cats (Verifies: IMP-R14, IMP-R6)', () => {
    expect(file.plan.counts).toEqual({ accepted: 0, doubtful: 0, refused: 248, alreadyThere: 0 });
    expect([file.saying('import.left-already'), file.saying('import.not-a-cat')]).toEqual([237, 11]);
    expect(file.byLabel('A656520').reasons).toEqual([
      { say: 'import.left-already', with: { left: { date: '2013-10-13' } } },
    ]);
  });
  test('asked for as well: every cat, with its arrival to be looked at', () => {
    expect(all.plan.counts).toEqual({ accepted: 0, doubtful: 237, refused: 11, alreadyThere: 0 });
    expect(all.saying('import.arrival-missing')).toBe(237);
    expect(all.byLabel('A656520').left).toEqual({ on: '2013-10-13', how: 'died', note: 'Euthanasia' });
  });
  test('all 45 age texts but the blank one are read, none as 0 days (Verifies: IMP-R8)', () => {
    expect([all.saying('import.age-not-read'), all.saying('import.birth-unknown')]).toEqual([0, 3]);
    expect(birth(all.byLabel('A656520'))).toBe('estimated 2011-10-14..2012-10-13');
    expect(birth(all.byLabel('A677462'))).toBe('estimated 2013-04-26..2014-04-25');
    expect(birth(all.byLabel('A712979'))).toBe('estimated 2015-09-21..2015-09-27');
    expect(birth(all.byLabel('A679441'))).toBe('estimated 2014-05-17..2014-05-17');
    expect(birth(all.byLabel('A683666'))).toBe('estimated 2013-09-02..2014-09-01');
  });
  test.each([
    ['A694526', 'Padmé', 'name: PadmÃ©'],
    ['A669595', 'Amélie', 'name: AmÃ©lie'],
    ['A719215', 'Cariño', 'name: CariÃ±o'],
    ['A688344', 'Céline', 'name: CÃ©line'],
  ])('%s is offered as %s (Verifies: IMP-R2)', (label, name, notes) => {
    const row = all.byLabel(label);
    expect([row.name, row.animal?.notes]).toEqual([name, notes]);
    expect(reasons(row)).toContain('letters-damaged');
  });
  test('sex and neuter state in one column (Verifies: IMP-R11)', () => {
    const cells = file.table.rows.map((row) => row.cells);
    const column = file.table.headings.indexOf('SexuponOutcome');
    const expected: Record<string, string> = {
      'Intact Male': 'male no',
      'Intact Female': 'female no',
      'Neutered Male': 'male yes',
      'Spayed Female': 'female yes',
      Unknown: 'unknown unknown',
    };
    for (const [at, row] of all.plan.rows.entries()) {
      if (row.animal === null) continue;
      expect(`${row.animal.sex} ${row.animal.neutered}`).toBe(expected[cells[at]?.[column] ?? '']);
    }
  });
});

describe('city-b: stays, places and counted birth dates', () => {
  const file = imported(tableOf('city-b-stays.csv'));
  const all = imported(tableOf('city-b-stays.csv'), { alsoLeft: true });
  test('columns (Verifies: IMP-R20)', () => {
    expect(proposed('city-b-stays.csv')).toEqual([
      {
        Name: 'name',
        Type: 'species',
        Color: 'coat',
        Sex: 'sex',
        'Date Of Birth': 'born',
        'Impound Number': 'key',
        'Kennel Number': 'kennel',
        'Animal ID': 'label',
        'Intake Date': 'arrived',
        'Outcome Date': 'left',
        'Outcome Type': 'leftHow',
      },
      [],
    ]);
  });
  test('26 cats are here, one of them missing (Verifies: IMP-R14, IMP-R16)', () => {
    expect(file.plan.counts).toEqual({ accepted: 0, doubtful: 25, refused: 207, alreadyThere: 0 });
    expect(reasons(file.byKey('K19-032083'))).toEqual(['place-missing']);
    expect(file.byKey('K19-032083').animal).toBeNull();
  });
  test('places are asked about once each (Verifies: IMP-R15)', () => {
    expect(file.plan.places.map((place) => [place.place, place.rows])).toEqual([
      ['', 9],
      ['CS05', 7],
      ['CA02', 5],
      ['CS06', 2],
      ['SMM', 1],
      ['TX', 1],
    ]);
  });
  test('with the sections of the shelter and the answers, the rows are accepted (Verifies: IMP-R15)', () => {
    const sections = [
      { id: 'adults' as SectionId, name: 'Adults', kennels: ['CS05', 'CS06'] },
      { id: 'intake' as SectionId, name: 'Intake', kennels: ['CA02'] },
    ];
    const answered = imported(tableOf('city-b-stays.csv'), {
      sections,
      places: { '': 'no-section', smm: 'intake' as SectionId, tx: 'not-here' },
    });
    expect(answered.plan.counts).toEqual({ accepted: 24, doubtful: 0, refused: 208, alreadyThere: 0 });
    expect(answered.byKey('K19-032080').animal).toMatchObject({ section: 'adults', kennel: 'CS05' });
    expect(answered.byKey('K19-032090').animal).toMatchObject({ section: null, kennel: '' });
  });
  test('nobody in a cooler, freezer or euthanasia room comes in, even when the day of leaving is lost (Verifies: IMP-R16)', () => {
    const table = tableOf('city-b-stays.csv');
    const out = table.headings.indexOf('Outcome Date');
    const how = table.headings.indexOf('Outcome Type');
    const kennel = table.headings.indexOf('Kennel Number');
    const rows = table.rows
      .filter((row) => ['COOLER', 'FREEZER', 'EUTH', 'MISSING'].includes(row.cells[kennel] ?? ''))
      .map((row) => ({ ...row, cells: row.cells.map((cell, at) => (at === out || at === how ? '' : cell)) }));
    const lost = imported({ ...table, rows });
    expect(rows.length).toBeGreaterThanOrEqual(9);
    expect(lost.plan.rows.filter((row) => row.animal !== null)).toEqual([]);
  });
  test('month first, because some rows can only be that (Verifies: IMP-R7)', () => {
    expect(file.saying('import.date-two-readings')).toBe(0);
    expect(all.byKey('K18-028261')).toMatchObject({ arrivedOn: '2018-05-15', leftOn: '2018-05-22' });
  });
  test('60 birth dates are on the day of the month of the arrival (Verifies: IMP-R9)', () => {
    // Some of the 60 belong to an earlier stay of an animal, whose row is listed against the later one.
    expect(everyRow('import.birth-counted-back')).toBe(60);
    expect(birth(all.byKey('K18-028261'))).toBe('estimated 2009-05-16..2010-05-15');
    expect(birth(all.byKey('K17-026717'))).toBe('known 2009-10-26..2009-10-26');
  });
  test('6 birth dates after the arrival are left out (Verifies: IMP-R10)', () => {
    expect(all.saying('import.born-after-arrival')).toBe(6);
  });
  test('25 rows are other stays; the open one of 2019 counts (Verifies: IMP-R13)', () => {
    expect(all.saying('import.other-stay')).toBe(25);
    expect(reasons(all.byKey('K16-018985'))).toEqual(['other-stay']);
    expect(all.byKey('K19-031362').animal?.label).toBe('A384180');
  });
  test.each([
    ['K17-022426', '"SARAH"', []],
    ['K16-021718', 'NUGGET "GRR"', []],
    ['K17-026717', '*LUCY', []],
    ['K16-020343', 'COUNTY CAT #341158', ['name-is-a-number']],
  ])('%s is called %s (Verifies: IMP-R12)', (key, name, why) => {
    expect(all.byKey(key).animal?.name).toBe(name);
    expect(reasons(all.byKey(key))).toEqual(why);
  });
  test('"Neutered" alone is a neutered male, "Male" says nothing about neutering (Verifies: IMP-R11)', () => {
    expect(all.byKey('K18-029816').animal).toMatchObject({ sex: 'male', neutered: 'yes' });
    expect(all.byKey('K18-030103').animal).toMatchObject({ sex: 'male', neutered: 'unknown' });
    expect(all.byKey('K17-022426').animal).toMatchObject({ sex: 'female', neutered: 'yes' });
  });
  function everyRow(note: string): number {
    const table = tableOf('city-b-stays.csv');
    return table.rows.filter(
      (row) => imported({ ...table, rows: [row] }, { alsoLeft: true, dateOrder: 'month-first' }).saying(note) > 0,
    ).length;
  }
});

describe('city-c: impossible birth dates and numbers as names', () => {
  const file = imported(tableOf('city-c-stays.csv'));
  const all = imported(tableOf('city-c-stays.csv'), { alsoLeft: true });
  test('columns (Verifies: IMP-R20)', () => {
    expect(proposed('city-c-stays.csv')).toEqual([
      {
        animal_id: 'label',
        animal_name: 'name',
        animal_type: 'species',
        primary_color: 'coat',
        secondary_color: 'coat',
        sex: 'sex',
        dob: 'born',
        intake_date: 'arrived',
        outcome_date: 'left',
        outcome_type: 'leftHow',
        outcome_is_dead: 'dead',
      },
      ['import.no-place-column'],
    ]);
  });
  test('39 cats are here, in no section until a person chooses one (Verifies: IMP-R14, IMP-R15)', () => {
    expect(file.plan.counts).toEqual({ accepted: 39, doubtful: 0, refused: 197, alreadyThere: 0 });
    expect(file.plan.rows.every((row) => row.animal === null || row.animal.section === null)).toBe(true);
    const put = imported(tableOf('city-c-stays.csv'), { places: { '': 's1' as SectionId } });
    expect(put.byLabel('A706171').animal?.section).toBe('s1');
  });
  test('23 birth dates cannot be: 22 after the arrival, one in 2031 (Verifies: IMP-R10)', () => {
    expect([all.saying('import.born-after-arrival'), all.saying('import.born-in-future')]).toEqual([22, 1]);
  });
  test('counted back in years, in months, and known (Verifies: IMP-R9)', () => {
    expect(birth(file.byLabel('A734554'))).toBe('estimated 2019-12-22..2020-12-21');
    expect(birth(file.byLabel('A734782'))).toBe('estimated 2024-08-28..2024-09-27');
    expect(birth(file.byLabel('A732941'))).toBe('known 2024-06-22..2024-06-22');
    expect(birth(file.byLabel('A734855'))).toBe('unknown 1999-12-28..2024-12-28');
  });
  test.each([
    ['A638369', 'a638369', 'name-is-a-number'],
    ['A638481', 'a638481*january', 'name-is-a-number'],
    ['A628220', 'a628220 catness', 'name-is-a-number'],
    ['A678427', '*', 'name-is-a-sign'],
    ['A715789', '*unknown', 'name-means-none'],
  ])('%s: "%s" (Verifies: IMP-R12)', (label, name, why) => {
    expect([all.byLabel(label).name, reasons(all.byLabel(label))]).toEqual([name, [why]]);
  });
  test('19 rows are other stays (Verifies: IMP-R13)', () => {
    expect(all.saying('import.other-stay')).toBe(19);
  });
  test('double spaces go, the two colours come together', () => {
    const coats = all.plan.rows.flatMap((row) => (row.animal === null ? [] : [row.animal.marks.coat]));
    expect(coats.filter((coat) => coat.includes('  '))).toEqual([]);
    expect(coats).toContain('brown tabby / white');
  });
});

describe('what comes out is what a record takes', () => {
  test.each(['city-a-leaving.csv', 'city-b-stays.csv', 'city-c-stays.csv', 'city-d-chips.csv'])('%s', (name) => {
    const rows = imported(tableOf(name), { alsoLeft: true }).plan.rows;
    const animals = rows.flatMap((row) => (row.animal === null ? [] : [row.animal]));
    expect(animals.length).toBeGreaterThan(150);
    for (const animal of animals) expect(kinds['animal-taken-in'].parse(animal)).toEqual(animal);
    for (const { left } of rows) if (left !== null) kinds['animal-left'].parse(left);
  });
});

describe('bringing a file in again (Verifies: IMP-R19)', () => {
  test.each(['city-a-leaving.csv', 'city-b-stays.csv', 'city-c-stays.csv', 'city-d-chips.csv'])('%s', (name) => {
    const first = imported(tableOf(name), { alsoLeft: true });
    const known: AlreadyThere[] = first.plan.rows.flatMap(({ animal, chip, left }) =>
      animal === null
        ? []
        : [
            {
              key: animal.origin.key,
              label: animal.label,
              name: animal.name,
              chip: chip?.code ?? null,
              arrivedOn: animal.arrivedOn,
              leftOn: left?.on ?? null,
            },
          ],
    );
    expect(new Set(known.map((one) => one.key)).size).toBe(known.length);
    const again = imported(tableOf(name), { alsoLeft: true }, known);
    expect([again.plan.counts.accepted, again.plan.counts.doubtful]).toEqual([0, 0]);
    expect(again.plan.counts.alreadyThere).toBe(known.length);
  });
});
