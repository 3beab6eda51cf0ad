import type { CalendarDate } from '../calendar.js';
import { said } from '../said.js';
import { askedAge } from './cells/birth.js';
import type { ColumnMapping } from './columns/fields.js';
import { plainForm } from './compare.js';
import { compareStays, markLookAlikes, markSharedChips, markSharedKeys, turnAway } from './compare-rows.js';
import type { Table } from './file/table.js';
import { interpretRow, type Reading } from './interpret-row.js';
import { bornHereColumns, type LeavingClue, leavingClues } from './leaving/leaving-clues.js';
import type { ImportContext, ReadRow, Verdict } from './taken-in.js';

/** An animal on record, as far as an import has to know it. */
export interface AlreadyThere {
  /** Its key in the file it came from (`origin.key`), or null when it was entered by hand. */
  readonly key: string | null;
  readonly label: string;
  readonly name: string;
  readonly chip: string | null;
  readonly arrivedOn: CalendarDate;
  readonly leftOn: CalendarDate | null;
}

export interface PlaceToAsk {
  /** As the file has it first; empty for rows without a place. */
  readonly place: string;
  /** Key of the answer in `ImportContext.places`. */
  readonly answerKey: string;
  readonly rows: number;
}

/** Ages without a column that tells on which day they were true: asked once, never assumed. */
export interface AgesToAsk {
  /** Rows whose birth waits for the answer. */
  readonly rows: number;
  readonly example: string;
}

/** A column that is used for nothing and may tell who has died or left. */
export interface ColumnToAsk {
  readonly column: number;
  readonly heading: string;
  /** Rows that would come in although this column may say that their animals are gone. */
  readonly rows: number;
  readonly example: string;
}

/** What an import would do. Nothing is recorded: records are made for the rows a person lets through, as one batch. */
export interface ImportPlan {
  /** Every row of the file with its verdict, in the order of the file. */
  readonly rows: readonly ReadRow[];
  /** `alreadyThere` is part of `refused`. */
  readonly counts: Readonly<Record<Verdict, number>> & { readonly alreadyThere: number };
  /** Places that are no section, to be answered once each, most rows first. */
  readonly places: readonly PlaceToAsk[];
  /** Null when no row waits for it. */
  readonly ages: AgesToAsk | null;
  readonly mayTell: readonly ColumnToAsk[];
}

const alreadyThereKey = 'import.already-there';

/**
 * Judge every row of a table against the others and against the animals on record. Bringing the same file in again, or
 * a later copy of it, finds its rows already there and adds nothing.
 */
export function planImport(
  table: Table,
  mapping: ColumnMapping,
  context: ImportContext,
  alreadyThere: readonly AlreadyThere[],
): ImportPlan {
  const reading: Reading = {
    mapping,
    context,
    clues: leavingClues(table, mapping, context.dateOrder, context.tellsNothing),
    bornHere: bornHereColumns(table),
  };
  let rows = table.rows.map((row) => interpretRow(row, reading));
  rows = compareStays(rows);
  rows = markSharedKeys(rows);
  rows = compareWithRecord(rows, alreadyThere);
  rows = markSharedChips(rows, alreadyThere);
  rows = markLookAlikes(rows);
  const count = (verdict: Verdict): number => rows.filter((row) => row.verdict === verdict).length;
  return {
    rows,
    counts: {
      accepted: count('accepted'),
      doubtful: count('doubtful'),
      refused: count('refused'),
      alreadyThere: rows.filter((row) => row.reasons.some((reason) => reason.say === alreadyThereKey)).length,
    },
    places: placesToAsk(rows),
    ages: agesToAsk(rows),
    mayTell: columnsToAsk(table, rows, reading.clues),
  };
}

function agesToAsk(rows: readonly ReadRow[]): AgesToAsk | null {
  const asked = rows.flatMap((row) => row.reasons.filter((reason) => reason.say === askedAge));
  const [first] = asked;
  return first === undefined ? null : { rows: asked.length, example: String(first.with?.age ?? '') };
}

/** Only columns that tell of rows that would come in: what they say of animals known to be gone changes nothing. */
function columnsToAsk(table: Table, rows: readonly ReadRow[], clues: readonly LeavingClue[]): ColumnToAsk[] {
  return clues.flatMap(({ column, heading }) => {
    const telling = rows.flatMap((row, at) => (row.clues.includes(column) ? [at] : []));
    const [first] = telling;
    if (first === undefined) return [];
    return [{ column, heading, rows: telling.length, example: table.rows[first]?.cells[column] ?? '' }];
  });
}

/**
 * Rows that are on record: by the key of their file, or by the animal's number when that animal is still here or arrived
 * on the same day. A number whose animal left before this arrival is a return and comes in as a new stay.
 */
function compareWithRecord(rows: readonly ReadRow[], known: readonly AlreadyThere[]): ReadRow[] {
  const byKey = new Map(known.flatMap((one) => (one.key === null ? [] : [[one.key, one] as const])));
  const byLabel = new Map<string, AlreadyThere[]>();
  for (const one of known) {
    if (one.label === '') continue;
    const label = plainForm(one.label);
    byLabel.set(label, [...(byLabel.get(label) ?? []), one]);
  }
  return rows.map((row) => {
    if (row.animal === null) return row;
    const returned = (one: AlreadyThere): boolean =>
      one.leftOn !== null && row.arrivedOn !== null && row.arrivedOn > one.leftOn && row.arrivedOn !== one.arrivedOn;
    const sameKey = byKey.get(row.key);
    if (sameKey !== undefined && !returned(sameKey)) return refused(row, sameKey);
    const key = sameKey === undefined ? row.key : `${row.key} ${row.arrivedOn ?? ''}`;
    const again = sameKey === undefined ? undefined : byKey.get(key);
    if (again !== undefined) return refused(row, again);
    const sameLabel = byLabel.get(plainForm(row.label)) ?? [];
    const same = sameLabel.find((one) => one.leftOn === null || one.arrivedOn === row.arrivedOn);
    if (same !== undefined) return refused(row, same);
    const before = sameLabel[0] ?? sameKey;
    const origin = { ...row.animal.origin, key };
    const notes = before === undefined ? [] : [said('import.was-here-before', { label: row.label })];
    return { ...row, key, animal: { ...row.animal, origin }, notes: [...row.notes, ...notes] };
  });
}

const refused = (row: ReadRow, by: AlreadyThere): ReadRow =>
  turnAway(row, said(alreadyThereKey, { label: by.label === '' ? by.name : by.label }));

function placesToAsk(rows: readonly ReadRow[]): PlaceToAsk[] {
  const asked = new Map<string, { place: string; rows: number }>();
  for (const { askPlace } of rows) {
    if (askPlace === null) continue;
    const answerKey = plainForm(askPlace);
    const known = asked.get(answerKey);
    asked.set(answerKey, { place: known?.place ?? askPlace, rows: (known?.rows ?? 0) + 1 });
  }
  return [...asked]
    .map(([answerKey, { place, rows: count }]) => ({ place, answerKey, rows: count }))
    .sort((one, other) => other.rows - one.rows);
}
