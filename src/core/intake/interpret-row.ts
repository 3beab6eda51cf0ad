import type { CalendarDate } from '../calendar.js';
import { type Said, said } from '../said.js';
import { type BirthCells, readBirth } from './cells/birth.js';
import { dayOf } from './cells/cell-day.js';
import { readChipCell } from './cells/chip-cell.js';
import { readDay } from './cells/day.js';
import { readFileWeight } from './cells/file-weight.js';
import { readNeutered, readSex } from './cells/sex-code.js';
import { isCat } from './cells/species.js';
import { type ColumnMapping, cellOf, type Field, isMapped } from './columns/fields.js';
import { nameKey, plainForm } from './compare.js';
import type { TableRow } from './file/table.js';
import { isGone, mayMeanGone, readFostered, readLeftHow } from './leaving/leaving.js';
import type { BornHere, LeavingClue } from './leaving/leaving-clues.js';
import { type PlaceReading, readPlace } from './leaving/place.js';
import { readStay, type Stay } from './leaving/stay.js';
import { cutAt, readMarks } from './marks.js';
import { readName } from './name-doubts.js';
import type { FileWeight, ImportContext, ReadRow, TakenIn } from './taken-in.js';

/** What all rows of a file are read with. */
export interface Reading {
  readonly mapping: ColumnMapping;
  readonly context: ImportContext;
  readonly clues: readonly LeavingClue[];
  readonly bornHere: readonly BornHere[];
}

export const mayHaveLeft = 'import.may-have-left';

/**
 * Read one row of a file as an animal.
 * Refused: not a cat, left already, dead or missing, cells that stand under the wrong headings, nothing to find it by.
 * Doubtful: anything a person has to look at; the reasons say what. Nothing is ever guessed silently.
 */
export function interpretRow(row: TableRow, reading: Reading): ReadRow {
  const { mapping, context } = reading;
  const cell = (field: Field): string => cellOf(row.cells, mapping, field);
  const doubts: Said[] = [...row.problems];
  const notes: Said[] = [];
  const label = cell('label').slice(0, cutAt.label);
  const { name, doubts: nameDoubts } = readName(cell('name'), label);
  const arrived = dayOf(cell('arrived'), context, doubts, 'import.arrived-in-future');
  const stay = readStay(cell, context, doubts, notes);
  const { left, how } = stay;
  const key = keyOf(cell('key'), label, name, arrived, cell);
  const seen = { row: row.row, line: row.line, label, name, key, arrivedOn: arrived, leftOn: left };
  const refuse = (why: Said): ReadRow => ({
    ...seen,
    verdict: 'refused',
    reasons: [why],
    notes: [],
    askPlace: null,
    clues: [],
    animal: null,
    weight: null,
    chip: null,
    left: null,
  });

  if (row.state === 'broken') return { ...refuse(said('import.row-broken')), reasons: row.problems };
  const species = cell('species');
  const cat = isMapped(mapping, 'species') ? isCat(species) : 'cat';
  if (cat === 'other') return refuse(said('import.not-a-cat', { species }));
  if (cat === 'unknown') doubts.push(said('import.species-blank'));
  if (label === '' && name === '') return refuse(said('import.nothing-to-find-it-by'));

  if (left !== null && !context.alsoLeft) return refuse(said('import.left-already', { left: { date: left } }));
  const place = placeOf(cell, stay, context);
  if (left === null) {
    if (isGone(how) !== null) return refuse(said('import.left-how-gone', { how }));
    if (stay.dead) return refuse(said('import.marked-dead'));
    if (place.state === 'gone') return refuse(place.why);
    if (mayMeanGone(how)) doubts.push(said('import.left-without-date', { how }));
  } else if (arrived !== null && left < arrived) {
    doubts.push(said('import.left-before-arrival', { left: { date: left }, arrived: { date: arrived } }));
  }
  const clues = left === null ? reading.clues.filter(({ column, tells }) => tells(row.cells[column] ?? '')) : [];
  for (const { column, heading } of clues) doubts.push(said(mayHaveLeft, { heading, cell: row.cells[column] ?? '' }));
  const told = stay.fostered !== null || placeIsTold(mapping);
  const asked = left === null && place.state === 'nowhere' && told ? place : null;
  if (asked?.why != null) doubts.push(asked.why);

  doubts.push(...nameDoubts);
  if (label === '' && isMapped(mapping, 'label')) doubts.push(said('import.label-blank'));
  if (arrived === null) doubts.push(said('import.arrival-missing', { today: { date: left ?? context.today } }));
  const sex = readSexAndNeutered(cell('sex'), cell('neutered'), doubts);
  const bornHere = reading.bornHere.find(({ column, cells }) => cells.has(row.cells[column] ?? ''));
  const birth = readBirth(
    {
      born: cell('born'),
      age: cell('age'),
      ageOn: ageDay(cell, arrived, reading),
      bornHere: row.cells[bornHere?.column ?? -1] ?? '',
    },
    arrived,
    context.dateOrder,
    context.today,
  );
  doubts.push(...birth.doubts);
  notes.push(...birth.notes);
  const { chip, kept } = readChipCell(cell('chip'), doubts);
  const weight = weightOf(cell, context, doubts);
  const typedName = name === cell('name') ? '' : `name: ${cell('name')}`;
  const marks = readMarks(cell, [typedName, kept], doubts);
  const animal: TakenIn = {
    label,
    name: name.slice(0, cutAt.name),
    litter: litterOf(cell('litter'), context.file),
    ...sex,
    born: birth.born,
    arrivedOn: arrived ?? left ?? context.today,
    section: left === null && place.state === 'section' ? place.section : null,
    kennel: (place.state === 'gone' ? '' : place.kennel).slice(0, cutAt.kennel),
    ...marks,
    origin: { file: context.file, row: row.row, key },
  };
  return {
    ...seen,
    verdict: doubts.length === 0 ? 'accepted' : 'doubtful',
    reasons: doubts,
    notes,
    askPlace: asked?.ask ?? null,
    clues: clues.map((clue) => clue.column),
    animal,
    weight,
    chip,
    left: left === null ? null : { on: left, how: readLeftHow(how), note: how.slice(0, 500) },
  };
}

/** Where it is: in a foster home when it is fostered, by whatever the file calls that, else where the row says. */
function placeOf(cell: (field: Field) => string, { fostered }: Stay, context: ImportContext): PlaceReading {
  const [place, kennel] = [cell('place'), cell('kennel')];
  const isTold = (word: string): boolean => isGone(word) !== null || readFostered(word) !== 'no';
  if (fostered === null || isTold(place) || isTold(kennel))
    return readPlace(place, kennel, context.sections, context.places);
  return readPlace(fostered, '', context.sections, context.places);
}

const placeIsTold = (mapping: ColumnMapping): boolean => isMapped(mapping, 'place') || isMapped(mapping, 'kennel');

/** The day on which the row's age was true: by its own column, by the answer of a person, or not told. */
function ageDay(
  cell: (field: Field) => string,
  arrived: CalendarDate | null,
  { mapping, context }: Reading,
): BirthCells['ageOn'] {
  if (isMapped(mapping, 'ageOn')) {
    const reading = readDay(cell('ageOn'), context.dateOrder, context.today);
    return reading.state === 'read' && reading.day <= context.today ? reading.day : null;
  }
  if (context.ageDay === 'not-used') return 'not-used';
  if (context.ageDay === 'arrival') return arrived;
  if (context.ageDay !== 'leaving') return context.ageDay ?? 'asked';
  const reading = readDay(cell('left'), context.dateOrder, context.today);
  return reading.state === 'read' && reading.day <= context.today ? reading.day : null;
}

function readSexAndNeutered(sexCell: string, neuteredCell: string, doubts: Said[]): Pick<TakenIn, 'sex' | 'neutered'> {
  const { sex, neutered, state } = readSex(sexCell);
  if (state === 'contradictory' || state === 'not-understood') {
    doubts.push(said(`import.sex-${state}`, { cell: sexCell }));
  }
  if (neuteredCell === '') return { sex, neutered };
  const own = readNeutered(neuteredCell);
  if (own === null) doubts.push(said('import.neutered-not-understood', { cell: neuteredCell }));
  if (own === null || own === 'unknown') return { sex, neutered };
  if (neutered !== 'unknown' && neutered !== own) {
    doubts.push(said('import.sex-contradictory', { cell: `${sexCell} / ${neuteredCell}` }));
    return { sex, neutered: 'unknown' };
  }
  return { sex, neutered: own };
}

function weightOf(cell: (field: Field) => string, context: ImportContext, doubts: Said[]): FileWeight | null {
  const reading = readFileWeight(cell('weight'), context.decimal, context.weightUnit);
  if (reading.state === 'doubtful') doubts.push(reading.why);
  if (reading.state !== 'read') return null;
  const on = dayOf(cell('weighedOn'), context, doubts, 'import.weighed-in-future');
  return { ...reading.weight, on };
}

/** Litters of one file with the same word are the same litter; a litter of another file never is. */
function litterOf(text: string, file: string): TakenIn['litter'] {
  const key = plainForm(text)
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .slice(0, 50);
  if (key === '' || key === '-') return null;
  return {
    id: `${file.slice(0, 16)}.${key}` as NonNullable<TakenIn['litter']>['id'],
    name: text.slice(0, cutAt.litter),
  };
}

/**
 * The unique column if there is one, else the animal's number with its arrival (a number comes back with each stay), else
 * what describes it. Compared as text; a row found under a key it had before is not brought in again.
 */
function keyOf(
  own: string,
  label: string,
  name: string,
  arrived: CalendarDate | null,
  cell: (field: Field) => string,
): string {
  if (own !== '') return own;
  if (label !== '') return arrived === null ? label : `${label} ${arrived}`;
  const described = [nameKey(name), arrived ?? '', plainForm(cell('litter')), plainForm(cell('coat')), cell('born')];
  return described.join('|').slice(0, 200);
}
