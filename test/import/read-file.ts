import { readFileSync } from 'node:fs';
import type { CalendarDate } from '../../src/core/calendar.js';
import { guessMapping } from '../../src/core/intake/columns/guess-mapping.js';
import { readHabits } from '../../src/core/intake/columns/habits.js';
import { decodeText } from '../../src/core/intake/file/decode.js';
import { readTable, type Table } from '../../src/core/intake/file/table.js';
import { type AlreadyThere, type ImportPlan, planImport } from '../../src/core/intake/plan-import.js';
import type { ImportContext, ReadRow } from '../../src/core/intake/taken-in.js';

/** After the last date of the excerpts. */
export const today = '2026-06-15' as CalendarDate;

export const bytesOf = (name: string): Uint8Array => readFileSync(new URL(`./files/${name}`, import.meta.url));

export function tableOf(name: string): Table {
  const decoded = decodeText(bytesOf(name));
  if (!decoded.ok) throw new Error(`${name} was refused: ${decoded.why.say}`);
  return readTable(decoded.value.text);
}

export interface Imported {
  readonly table: Table;
  readonly plan: ImportPlan;
  /** The row whose animal has this number; the first one where there are several. */
  readonly byLabel: (label: string) => ReadRow;
  readonly byKey: (key: string) => ReadRow;
  /** How many rows have this reason or note. */
  readonly saying: (key: string) => number;
}

/** The whole way of a file with the proposed columns and no answers but those given. */
export function imported(
  table: Table,
  answers: Partial<ImportContext> = {},
  known: readonly AlreadyThere[] = [],
): Imported {
  const { mapping } = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const { dateOrder, decimal, weightUnit } = readHabits(table, mapping, today);
  const context = {
    file: 'f'.repeat(64),
    today,
    sections: [],
    places: {},
    ageDay: null,
    tellsNothing: [],
    alsoLeft: false,
  };
  const plan = planImport(table, mapping, { ...context, dateOrder, decimal, weightUnit, ...answers }, known);
  const find = (test: (row: ReadRow) => boolean, what: string): ReadRow => {
    const row = plan.rows.find(test);
    if (row === undefined) throw new Error(`no row ${what}`);
    return row;
  };
  return {
    table,
    plan,
    byLabel: (label) => find((row) => row.label === label, label),
    byKey: (key) => find((row) => row.key === key, key),
    saying: (key) => plan.rows.filter((row) => [...row.reasons, ...row.notes].some((one) => one.say === key)).length,
  };
}

export const reasons = (row: ReadRow): string[] => row.reasons.map((reason) => reason.say.replace('import.', ''));
