/** What a column of a file can mean to us. */
export const fields = [
  'label',
  'key',
  'name',
  'species',
  'sex',
  'neutered',
  'born',
  'age',
  'ageOn',
  'arrived',
  'left',
  'leftHow',
  'returned',
  'dead',
  'place',
  'kennel',
  'litter',
  'coat',
  'mark',
  'collar',
  'chip',
  'weight',
  'weighedOn',
  'notes',
] as const;
export type Field = (typeof fields)[number];

/** Fields that may be put together from several columns; of the others only the first column counts. */
export const joined: readonly Field[] = ['coat', 'mark', 'notes'];

/**
 * Which columns (by position, from 0) hold which field. `label` is the shelter's own number of the animal and may come
 * back with a later stay; `key` is what is different in every row. One column may serve two fields, for instance
 * `left` and `ageOn`.
 */
export type ColumnMapping = Readonly<Partial<Record<Field, readonly number[]>>>;

/** The cells of a field in one row, joined by ` / ` where several columns are allowed; empty when not mapped. */
export function cellOf(cells: readonly string[], mapping: ColumnMapping, field: Field): string {
  const columns = mapping[field] ?? [];
  if (!joined.includes(field)) return cells[columns[0] ?? -1] ?? '';
  return columns
    .map((column) => cells[column] ?? '')
    .filter((cell) => cell !== '')
    .join(' / ');
}

export const isMapped = (mapping: ColumnMapping, field: Field): boolean => (mapping[field] ?? []).length > 0;

/** The mapping as heading to field names, the form in which a record keeps it. */
export function columnsInWords(headings: readonly string[], mapping: ColumnMapping): Record<string, string> {
  const words: Record<string, string> = {};
  for (const field of fields) {
    for (const column of mapping[field] ?? []) {
      const heading = headings[column] ?? '';
      const known = words[heading];
      words[heading] = known === undefined ? field : `${known} ${field}`;
    }
  }
  return words;
}
