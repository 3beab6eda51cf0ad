import type { CalendarDate } from '../../calendar.js';
import type { WeightUnit } from '../../quantity/units.js';
import { type Said, said } from '../../said.js';
import { bothDays } from '../cells/cell-day.js';
import { type DayOrder, hasOrder, provenOrder, readDay } from '../cells/day.js';
import { type DecimalSign, hasTwoReadings, provenSign } from '../cells/decimal-sign.js';
import { headingWords } from '../compare.js';
import type { Table } from '../file/table.js';
import { type ColumnMapping, cellOf, type Field } from './fields.js';

/** How one file writes days and weights, as far as its own cells prove it; null where a person has to say. */
export interface Habits {
  readonly dateOrder: DayOrder | null;
  readonly decimal: DecimalSign | null;
  readonly weightUnit: WeightUnit | null;
  /** What must be answered before the doubtful cells can be read; each is asked once for the whole file. */
  readonly questions: readonly HabitQuestion[];
}

export interface HabitQuestion {
  readonly about: 'dateOrder' | 'decimal' | 'weightUnit';
  readonly ask: Said;
  /** The cell of the file that needs the answer. */
  readonly example: string;
}

const dateFields: readonly Field[] = ['born', 'arrived', 'left', 'ageOn', 'weighedOn'];

export function readHabits(table: Table, mapping: ColumnMapping, today: CalendarDate): Habits {
  const cells = (wanted: readonly Field[]): string[] =>
    table.rows
      .filter((row) => row.state !== 'broken')
      .flatMap((row) => wanted.map((field) => cellOf(row.cells, mapping, field)))
      .filter((cell) => cell !== '');
  const dates = cells(dateFields);
  const weights = cells(['weight']);
  const order = provenOrder(dates);
  const sign = provenSign(weights);
  const unit = unitOfHeading(table.headings[mapping.weight?.[0] ?? -1] ?? '');
  const questions: HabitQuestion[] = [];
  const ask = (
    about: HabitQuestion['about'],
    example: string | undefined,
    asked: (values: { readonly example: string }) => Said,
  ): void => {
    if (example !== undefined) questions.push({ about, ask: asked({ example }), example });
  };
  if (order === null || order === 'mixed') {
    const example = dates.find(hasOrder);
    const reading = readDay(example ?? '', null, today);
    // A mixed file may have its first example on a day that only one order gives.
    if (order === 'mixed') ask('dateOrder', example, (values) => said('import.ask-date-order-mixed', values));
    else if (reading.state === 'two-readings') {
      const both = bothDays(reading.days);
      ask('dateOrder', example, (values) => said('import.ask-date-order', { ...values, ...both }));
    }
  }
  const twoReadings = weights.find(hasTwoReadings);
  if (sign === 'mixed') ask('decimal', twoReadings, (values) => said('import.ask-decimal-mixed', values));
  if (sign === null) ask('decimal', twoReadings, (values) => said('import.ask-decimal', values));
  if (unit === null)
    ask(
      'weightUnit',
      weights.find((cell) => !/\p{L}/u.test(cell)),
      (values) => said('import.ask-weight-unit', values),
    );
  return {
    dateOrder: order === 'mixed' ? null : order,
    decimal: sign === 'mixed' ? null : sign,
    weightUnit: unit,
    questions,
  };
}

/** `Weight kg`, `weight_g`, `mass (lb)`. */
function unitOfHeading(heading: string): WeightUnit | null {
  for (const word of headingWords(heading)) {
    if (/^(g|grams?|gramm)$/.test(word)) return 'g';
    if (/^(kg|kgs|kilos?|kilograms?)$/.test(word)) return 'kg';
    if (/^(lb|lbs|pounds?)$/.test(word)) return 'lb';
    if (/^(oz|ounces?)$/.test(word)) return 'oz';
  }
  return null;
}
