import { type Said, said } from '../said.js';
import { nameKey, plainForm } from './compare.js';
import type { ReadRow } from './taken-in.js';

/** The rows of one file against each other. Refused rows take part in nothing here. */

const doubt = (row: ReadRow, ...why: Said[]): ReadRow => ({
  ...row,
  verdict: 'doubtful',
  reasons: [...row.reasons, ...why],
});

/** The row, not to be brought in, for this reason alone. */
export const turnAway = (row: ReadRow, why: Said): ReadRow => ({
  ...row,
  verdict: 'refused',
  reasons: [why],
  askPlace: null,
  clues: [],
  animal: null,
  weight: null,
  chip: null,
  left: null,
});

type Key = (row: ReadRow) => string | null;

/** Groups of two and more rows, still in care of the import, that share a key. */
function sharing(rows: readonly ReadRow[], keyOf: Key): ReadRow[][] {
  const groups = new Map<string, ReadRow[]>();
  for (const row of rows) {
    const key = row.animal === null ? null : keyOf(row);
    if (key === null) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}

function replace(rows: readonly ReadRow[], changed: ReadonlyMap<number, ReadRow>): ReadRow[] {
  return rows.map((row) => changed.get(row.row) ?? row);
}

/**
 * One number in several rows means several stays of one animal: the latest open stay is brought in (with `alsoLeft`, the
 * latest when none is open) and the others are listed against it. When name or sex differ the rows may be different
 * animals under one number, and the chosen one is doubtful. An open stay with a later one that has ended is doubtful:
 * the animal may be gone.
 */
export function compareStays(rows: readonly ReadRow[]): ReadRow[] {
  const changed = new Map<number, ReadRow>();
  for (const stays of sharing(rows, (row) => (row.label === '' ? null : plainForm(row.label)))) {
    const chosen = stays.reduce((best, row) => (isLater(row, best) ? row : best));
    const others = stays.filter((row) => row !== chosen);
    for (const row of others)
      changed.set(row.row, turnAway(row, said('import.other-stay', { row: chosen.row, label: row.label })));
    const differs = others.filter((row) => !sameAnimal(row, chosen));
    const why = differs.map((row) => said('import.same-number', { label: row.label, row: row.row }));
    if (why.length > 0) changed.set(chosen.row, doubt(chosen, ...why));
  }
  const open = new Map(
    replace(rows, changed).flatMap((row) =>
      row.animal === null || row.label === '' ? [] : [[plainForm(row.label), row]],
    ),
  );
  for (const row of rows) {
    if (row.leftOn === null || row.arrivedOn === null || row.label === '') continue;
    const here = open.get(plainForm(row.label));
    if (here === undefined || here.row === row.row || here.leftOn !== null) continue;
    if (here.arrivedOn !== null && row.arrivedOn <= here.arrivedOn) continue;
    const now = changed.get(here.row) ?? here;
    changed.set(here.row, doubt(now, said('import.later-stay-ended', { row: row.row, left: { date: row.leftOn } })));
  }
  return replace(rows, changed);
}

/** An open stay before an ended one, then the later arrival, then the later row. */
function isLater(row: ReadRow, best: ReadRow): boolean {
  if ((row.leftOn === null) !== (best.leftOn === null)) return row.leftOn === null;
  return (row.arrivedOn ?? '') >= (best.arrivedOn ?? '');
}

function sameAnimal(row: ReadRow, other: ReadRow): boolean {
  const names = nameKey(row.name) === nameKey(other.name) || row.name === '' || other.name === '';
  const sexes = [row.animal?.sex, other.animal?.sex];
  return names && (sexes[0] === sexes[1] || sexes.includes('unknown'));
}

/** Rows with the same key that are not stays of one number: the key is made different by its place in the file. */
export function markSharedKeys(rows: readonly ReadRow[]): ReadRow[] {
  const changed = new Map<number, ReadRow>();
  for (const group of sharing(rows, (row) => row.key)) {
    const first = group[0];
    for (const [at, row] of group.entries()) {
      const key = at === 0 ? row.key : `${row.key} #${at + 1}`;
      const animal = row.animal === null ? null : { ...row.animal, origin: { ...row.animal.origin, key } };
      const other = at === 0 ? group[1] : first;
      changed.set(
        row.row,
        doubt({ ...row, key, animal }, said('import.looks-the-same', { row: other?.row ?? row.row })),
      );
    }
  }
  return replace(rows, changed);
}

/** A chip belongs to one animal: on two rows, or on a row and an animal on record, it makes the rows doubtful. */
export function markSharedChips(
  rows: readonly ReadRow[],
  known: readonly { readonly chip: string | null; readonly label: string; readonly name: string }[],
): ReadRow[] {
  const changed = new Map<number, ReadRow>();
  for (const group of sharing(rows, (row) => row.chip?.code ?? null)) {
    for (const row of group) {
      const other = group.find((one) => one !== row);
      changed.set(row.row, doubt(row, said('import.chip-twice', { chip: row.chip?.code ?? '', row: other?.row ?? 0 })));
    }
  }
  const owner = new Map(known.flatMap((one) => (one.chip === null ? [] : [[one.chip, one] as const])));
  for (const row of replace(rows, changed)) {
    const other = row.animal === null ? undefined : owner.get(row.chip?.code ?? '');
    if (other === undefined) continue;
    const name = other.label === '' ? other.name : other.label;
    changed.set(row.row, doubt(row, said('import.chip-on-record', { chip: row.chip?.code ?? '', name })));
  }
  return replace(rows, changed);
}

/** Names that differ in nothing but a figure or a sign: nothing is wrong, but the cage cards will look alike. */
export function markLookAlikes(rows: readonly ReadRow[]): ReadRow[] {
  const changed = new Map<number, ReadRow>();
  const alike: Key = (row) => {
    const letters = nameKey(row.name).replace(/[^\p{L}]/gu, '');
    return letters.length < 2 ? null : letters;
  };
  for (const group of sharing(rows, alike)) {
    const note = said('import.look-alike', { count: group.length - 1 });
    for (const row of group) changed.set(row.row, { ...row, notes: [...row.notes, note] });
  }
  return replace(rows, changed);
}
