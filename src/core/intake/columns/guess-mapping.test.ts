import { describe, expect, test } from 'vitest';
import { readTable } from '../file/table.js';
import { columnsInWords } from './fields.js';
import { guessMapping, noticesOf } from './guess-mapping.js';

function guess(text: string) {
  const table = readTable(text);
  const guessed = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const { mapping } = guessed;
  const doubts = noticesOf(table.headings, guessed, mapping);
  return { columns: columnsInWords(table.headings, mapping), doubts: doubts.map((doubt) => doubt.say.slice(7)) };
}

// Headings here are ours; the headings of the three city files are checked in test/import. Verifies: IMP-R20
describe('columns proposed from headings and cells', () => {
  test('a list kept by hand', () => {
    expect(
      guess(
        'No;Kitten;Sex;Neutered?;Age;Came in;Cage;Collar colour;Chip number;Weight (g)\n7;Pip;F;no;5 weeks;02.06.2026;C1;red;;650',
      ).columns,
    ).toEqual({
      No: 'label',
      Sex: 'sex',
      'Neutered?': 'neutered',
      Age: 'age',
      'Came in': 'arrived',
      Cage: 'kennel',
      'Collar colour': 'collar',
      'Chip number': 'chip',
      'Weight (g)': 'weight',
    });
  });
  test('German headings', () => {
    expect(
      guess('Nummer;Name;Tierart;Geschlecht;Geburtsdatum;Aufnahme;Gewicht kg\n1;Pip;Katze;w;02.03.2026;02.05.2026;0,65')
        .columns,
    ).toEqual({
      Nummer: 'label',
      Name: 'name',
      Tierart: 'species',
      Geschlecht: 'sex',
      Geburtsdatum: 'born',
      Aufnahme: 'arrived',
      'Gewicht kg': 'weight',
    });
  });
  test('no column of people, places of finding or other weights is taken', () => {
    expect(
      guess(
        'Animal ID,Owner name,Found location,Gross weight,Chip date,Breed\nA1,Smith,Main Street,113,2026-05-01,Domestic',
      ).columns,
    ).toEqual({ 'Animal ID': 'label' });
  });
  test('the species by its cells, not by the word type', () => {
    expect(guess('Id,Intake type,Type\nA1,stray,cat\nA2,transfer,dog').columns).toEqual({
      Id: 'label',
      Type: 'species',
    });
  });
  test('the key is a number that is different in every row', () => {
    const rows = 'Animal ID,Intake number,Name\nA1,K1,Pip\nA1,K2,Pip\nA2,K3,Moo';
    expect(guess(rows).columns).toEqual({ 'Animal ID': 'label', 'Intake number': 'key', Name: 'name' });
    expect(guess(`${rows}\nA3,K3,Lu`).columns).toEqual({ 'Animal ID': 'label', Name: 'name' });
  });
  test('one date without a telling heading is a doubt', () => {
    expect(guess('Id,Species,Date\nA1,cat,2026-05-01')).toEqual({
      columns: { Id: 'label', Species: 'species', Date: 'arrived' },
      doubts: ['date-taken-as-arrived', 'no-place-column'],
    });
    expect(guess('Id,Species,Date,Day\nA1,cat,2026-05-01,2026-05-02').doubts).toContain('which-dates');
  });
  test('nothing recognised', () => {
    expect(guess('x,y\nfoo,bar')).toEqual({
      columns: {},
      doubts: ['no-species-column', 'no-name-column', 'no-arrival-column', 'no-place-column'],
    });
  });
  test('only headings', () => {
    expect(guess('Animal ID,Name,Sex,Date of birth').columns).toEqual({
      Name: 'name',
      Sex: 'sex',
      'Date of birth': 'born',
    });
  });
});
