import type { ReadRows, ReadTable } from '../log/read-rows.js';

type ColumnType = 'text' | 'integer';
interface Column {
  readonly type: ColumnType;
  readonly null: boolean;
}
export interface TableShape {
  /** Columns that tell one row from another, in order; rows are given in this order too. */
  readonly key: readonly string[];
  readonly columns: Readonly<Record<string, Column>>;
  /** The table whose row every row here belongs to. */
  readonly belongsTo?: { readonly column: string; readonly table: ReadTable };
  readonly indexes?: readonly (readonly string[])[];
}
type ShapeOf<Row> = TableShape & {
  readonly key: readonly (keyof Row & string)[];
  readonly columns: { readonly [C in keyof Row]: Column };
};

const text = { type: 'text', null: false } as const;
const textOrNull = { type: 'text', null: true } as const;
const integer = { type: 'integer', null: false } as const;
const integerOrNull = { type: 'integer', null: true } as const;
const ofAnimal = { column: 'animal', table: 'animals' } as const;

/** The read tables as SQL has them. A column that src/log/read-rows.ts has and this list has not does not compile. */
export const readTables = {
  animals: {
    key: ['animal'],
    columns: {
      animal: text,
      label: text,
      name: text,
      litter: textOrNull,
      section: textOrNull,
      kennel: text,
      sex: text,
      neutered: text,
      born_earliest: text,
      born_latest: text,
      arrived_on: text,
      left_on: textOrNull,
      left_how: textOrNull,
      chip: textOrNull,
      weight_g: integerOrNull,
      weighed_on: textOrNull,
      origin_key: textOrNull,
    },
    indexes: [['section'], ['chip'], ['left_on']],
  },
  due_items: {
    key: ['animal', 'schedule'],
    columns: {
      animal: text,
      section: textOrNull,
      schedule: text,
      status: text,
      dose: integer,
      earliest: textOrNull,
      due: textOrNull,
      overdue_after: textOrNull,
      latest: textOrNull,
      hold_code: textOrNull,
      hold_until: textOrNull,
      because: text,
      protocol: text,
    },
    belongsTo: ofAnimal,
    indexes: [
      ['section', 'status', 'due'],
      ['schedule', 'status'],
    ],
  },
  given: {
    key: ['record'],
    columns: {
      record: text,
      animal: text,
      schedule: textOrNull,
      product: text,
      lot: textOrNull,
      given_on: text,
      volume_ul: integerOrNull,
      outcome: text,
      by: text,
      written_by: textOrNull,
    },
    belongsTo: ofAnimal,
    indexes: [['animal'], ['lot'], ['given_on']],
  },
  weighings: {
    key: ['record'],
    columns: { record: text, animal: text, weighed_at: text, grams: integer },
    belongsTo: ofAnimal,
    indexes: [['animal']],
  },
  tests: {
    key: ['animal', 'run'],
    columns: {
      run: text,
      animal: text,
      schedule: text,
      kit_lot: textOrNull,
      started_at: textOrNull,
      read_at: textOrNull,
      result: text,
    },
    belongsTo: ofAnimal,
    indexes: [['kit_lot']],
  },
  chips: {
    // Two animals with one number is a flag, not an error of the table.
    key: ['code', 'animal'],
    columns: { code: text, animal: text, confirmed: integer, number: text, since: text },
    belongsTo: ofAnimal,
    indexes: [['animal'], ['number']],
  },
  // Rows of animals that nobody has taken in count, too: none of these belongs to a row of `animals`.
  lot_uses: {
    key: ['record', 'lot'],
    columns: {
      record: text,
      lot: text,
      animal: text,
      at: text,
      pieces: integer,
      volume_ul: integer,
      test_read: integer,
      test_invalid: integer,
      invalid_at: textOrNull,
    },
    indexes: [['animal'], ['lot', 'at']],
  },
  round_animals: {
    key: ['round', 'animal'],
    columns: {
      round: text,
      animal: text,
      done: integer,
      not_done: integer,
      open: integer,
      abnormal: integer,
      no_lot: integer,
      no_amount: integer,
      missing_at: textOrNull,
    },
    indexes: [['animal']],
  },
  chip_readings: {
    key: ['record'],
    columns: { record: text, animal: text, code: text, number: text, was: text },
    indexes: [['animal'], ['number']],
  },
  fast_clocks: {
    key: ['device', 'on', 'animal'],
    columns: { device: text, on: text, animal: text, record: text, at: text, ahead_ms: integer, by: text },
    indexes: [['animal']],
  },
  run_holders: {
    // One test under two animals is a flag, not an error of the table.
    key: ['run', 'animal'],
    columns: { run: text, animal: text, called: text, record: text, at: text, by: text, stands: integer },
    indexes: [['animal']],
  },
  number_holders: {
    // Two animals under one number is a flag, too.
    key: ['number', 'animal'],
    columns: { number: text, animal: text, label: text, called: text, since: text },
    indexes: [['animal']],
  },
  chip_numbers: {
    // Every number ever recorded on an animal; by animal, since that is how what is new is asked for.
    key: ['animal', 'code'],
    columns: { code: text, animal: text, standing: text, label: text, left_on: textOrNull },
    belongsTo: ofAnimal,
    indexes: [['code']],
  },
  flags: {
    key: ['key'],
    columns: {
      key: text,
      code: text,
      severity: text,
      animal: textOrNull,
      raised_at: text,
      state: text,
      why: text,
      owner: text,
    },
    indexes: [['state', 'severity'], ['animal'], ['owner']],
  },
  sections: { key: ['section'], columns: { section: text, name: text, rank: text, position: integer } },
  people: { key: ['person'], columns: { person: text, role: text, active: integer } },
  lots: {
    key: ['lot'],
    columns: {
      lot: text,
      holds: text,
      lot_text: text,
      expires: textOrNull,
      pieces_left: integer,
      withdrawn: textOrNull,
    },
  },
  rounds: {
    key: ['round'],
    columns: {
      round: text,
      on: text,
      state: text,
      done: integer,
      not_done: integer,
      open: integer,
      abnormal: integer,
    },
    indexes: [['on']],
  },
} as const satisfies { readonly [T in ReadTable]: ShapeOf<ReadRows[T]> };

export const tableNames = Object.keys(readTables) as readonly ReadTable[];
export const shapeOf = (table: ReadTable): TableShape => readTables[table];

export type Cell = string | number | null;
export type Row = Readonly<Record<string, Cell>>;

/** The key of a row as one text. */
export const keyText = (table: ReadTable, row: Row): string =>
  JSON.stringify(shapeOf(table).key.map((column) => row[column] ?? null));

/** The whole row as one text, columns in the order of the table. */
export const rowText = (table: ReadTable, row: Row): string =>
  JSON.stringify(Object.keys(shapeOf(table).columns).map((column) => row[column] ?? null));

/** Order of two rows by the key of their table, texts by code points as SQL's binary order has them. */
export function compareKeys(table: ReadTable, a: Row, b: Row): number {
  for (const column of shapeOf(table).key) {
    const order = compareCells(a[column] ?? null, b[column] ?? null);
    if (order !== 0) return order;
  }
  return 0;
}

function compareCells(a: Cell, b: Cell): number {
  return typeof a === 'number' && typeof b === 'number' ? a - b : compareTexts(String(a), String(b));
}

/** Order of texts by code points. */
export function compareTexts(a: string, b: string): number {
  const left = Array.from(a, (character) => character.codePointAt(0) ?? 0);
  const right = Array.from(b, (character) => character.codePointAt(0) ?? 0);
  const at = left.findIndex((point, index) => point !== right[index]);
  if (at === -1) return left.length - right.length;
  return (left[at] ?? 0) - (right[at] ?? -1);
}
