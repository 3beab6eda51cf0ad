import type { CalendarDate } from '../../calendar.js';
import type { WeightUnit } from '../../quantity/units.js';
import { type Said, said } from '../../said.js';
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
  const ask = (about: HabitQuestion['about'], key: string, example: string | undefined, values = {}): void => {
    if (example !== undefined) questions.push({ about, ask: said(key, { example, ...values }), example });
  };
  if (order === null || order === 'mixed') {
    const example = dates.find(hasOrder);
    const reading = readDay(example ?? '', null, today);
    const [one, other] = reading.state === 'two-readings' ? reading.days : [];
    const both = one === undefined || other === undefined ? {} : { one: { date: one }, other: { date: other } };
    // A mixed file may have its first example on a day that only one order gives.
    const key = order === 'mixed' ? 'import.ask-date-order-mixed' : 'import.ask-date-order';
    ask('dateOrder', key, order === 'mixed' || reading.state === 'two-readings' ? example : undefined, both);
  }
  if (sign === 'mixed') ask('decimal', 'import.ask-decimal-mixed', weights.find(hasTwoReadings));
  if (sign === null) ask('decimal', 'import.ask-decimal', weights.find(hasTwoReadings));
  if (unit === null)
    ask(
      'weightUnit',
      'import.ask-weight-unit',
      weights.find((cell) => !/\p{L}/u.test(cell)),
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
