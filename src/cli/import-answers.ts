import { CalendarDate } from '../core/calendar.js';
import type { DayOrder } from '../core/intake/cells/day.js';
import type { DecimalSign } from '../core/intake/cells/decimal-sign.js';
import { type ColumnMapping, type Field, fields, joined } from '../core/intake/columns/fields.js';
import { plainForm } from '../core/intake/compare.js';
import type { Delimiter } from '../core/intake/file/table.js';
import type { PlaceAnswer } from '../core/intake/leaving/place.js';
import type { AgeDay } from '../core/intake/taken-in.js';
import type { WeightUnit } from '../core/quantity/units.js';
import type { Shelter } from '../log/views/shelter.js';
import type { Given } from './command.js';
import { type Exit, isExit, misused } from './exit.js';
import { sectionCalled } from './find.js';

const signs: Readonly<Record<string, Delimiter>> = { comma: ',', semicolon: ';', tab: '\t', bar: '|' };

export const readDelimiter = (given: Given): Delimiter | undefined => signs[given.text('delimiter') ?? ''];

/** The proposed columns with what `--map "Heading=field"` changes; `Heading=nothing` leaves a column out. */
export function mappingFrom(given: Given, headings: readonly string[], proposed: ColumnMapping): ColumnMapping | Exit {
  const mapping: Partial<Record<Field, readonly number[]>> = { ...proposed };
  const asked = given.texts('map').map((text) => ({ text, cut: text.lastIndexOf('=') }));
  const placed: { column: number; field: Field }[] = [];
  for (const { text, cut } of asked) {
    if (cut < 1) return misused('cli.import.map-shape', { given: text });
    const heading = text.slice(0, cut).trim();
    const column = headings.findIndex((one) => plainForm(one) === plainForm(heading));
    if (column === -1) return misused('cli.import.no-such-column', { heading, list: { list: headings } });
    const name = text.slice(cut + 1).trim();
    const field = fields.find((one) => one.toLowerCase() === name.toLowerCase());
    if (field === undefined && name !== 'nothing') {
      return misused('cli.import.no-such-field', { field: name, list: { list: [...fields, 'nothing'] } });
    }
    for (const [other, columns] of Object.entries(mapping) as [Field, readonly number[]][]) {
      // A column named twice serves two fields; what was only proposed for it gives way.
      if (placed.some((one) => one.column === column && one.field === other)) continue;
      mapping[other] = columns.filter((one) => one !== column);
    }
    if (field === undefined) continue;
    placed.push({ column, field });
  }
  for (const { column, field } of placed) {
    const before = joined.includes(field) ? (mapping[field] ?? []) : [];
    mapping[field] = [...before, column];
  }
  return Object.fromEntries(Object.entries(mapping).filter(([, columns]) => columns.length > 0)) as ColumnMapping;
}

export interface ImportAnswers {
  readonly dateOrder: DayOrder | null;
  readonly decimal: DecimalSign | null;
  readonly weightUnit: WeightUnit | null;
  readonly places: Readonly<Record<string, PlaceAnswer>>;
  readonly ageDay: AgeDay | null;
  /** Columns that `--map "Heading=nothing"` leaves out: they tell nothing about dying and leaving either. */
  readonly tellsNothing: readonly number[];
}

/** The answers given as options. `--place "=Intake"` answers for rows without a place. */
export function importAnswers(
  given: Given,
  shelter: Shelter,
  headings: readonly string[],
  today: CalendarDate,
): ImportAnswers | Exit {
  const ageDay = ageDayFrom(given, today);
  if (isExit(ageDay)) return ageDay;
  const places: Record<string, PlaceAnswer> = {};
  for (const text of given.texts('place')) {
    const cut = text.lastIndexOf('=');
    if (cut === -1) return misused('cli.import.place-shape', { given: text });
    const answer = text.slice(cut + 1).trim();
    if (answer === 'no-section' || answer === 'not-here') places[plainForm(text.slice(0, cut))] = answer;
    else {
      const section = sectionCalled(shelter, answer);
      if (isExit(section)) return section;
      places[plainForm(text.slice(0, cut))] = section.id;
    }
  }
  const decimal = given.text('decimal');
  return {
    dateOrder: given.text('date-order') as DayOrder | null,
    decimal: decimal === null ? null : decimal === 'point' ? '.' : ',',
    weightUnit: given.text('unit') as WeightUnit | null,
    places,
    ageDay,
    tellsNothing: leftOut(given, headings),
  };
}

/** `--age-on`: a day that has been, or which of the row's own days. */
function ageDayFrom(given: Given, today: CalendarDate): AgeDay | null | Exit {
  const text = given.text('age-on');
  if (text === null || text === 'arrival' || text === 'leaving' || text === 'not-used') return text;
  const day = CalendarDate.safeParse(text);
  return day.success && day.data <= today ? day.data : misused('cli.import.age-on-shape', { given: text });
}

function leftOut(given: Given, headings: readonly string[]): number[] {
  return given.texts('map').flatMap((text) => {
    const cut = text.lastIndexOf('=');
    const heading = plainForm(text.slice(0, cut));
    return text.slice(cut + 1).trim() === 'nothing' ? [headings.findIndex((one) => plainForm(one) === heading)] : [];
  });
}
