import type { AnimalRow } from '../log/read-rows.js';
import { csvText } from './csv.js';

/**
 * A chip so that no spreadsheet takes it for a number or a power of ten: in groups with hyphens, `985-112-006-831-826`,
 * `45203-82E12`, `031-820-285`. Every place of ours that reads a chip drops the hyphens again.
 */
export const chipInGroups = (chip: string): string =>
  (/^\d+$/.test(chip) ? chip.match(/.{1,3}/g) : chip.match(/.{1,5}/g))?.join('-') ?? '';

/** Columns in this order. Names are for ever: added at the end, never re-meant. */
const columns: readonly (readonly [string, (row: AnimalRow) => string | number | null])[] = [
  ['animal', (row) => row.animal],
  ['label', (row) => row.label],
  ['name', (row) => row.name],
  ['species', () => 'cat'],
  ['litter', (row) => row.litter],
  ['section', (row) => row.section],
  ['kennel', (row) => row.kennel],
  ['sex', (row) => row.sex],
  ['neutered', (row) => row.neutered],
  ['born_earliest', (row) => row.born_earliest],
  ['born_latest', (row) => row.born_latest],
  ['arrived_on', (row) => row.arrived_on],
  ['left_on', (row) => row.left_on],
  ['left_how', (row) => row.left_how],
  ['chip', (row) => (row.chip === null ? '' : chipInGroups(row.chip))],
  ['weight_g', (row) => row.weight_g],
  ['weighed_on', (row) => row.weighed_on],
];

/**
 * The animals as CSV. `demo` adds a column that says the data is invented. `nameOf` puts a
 * section's name in the place of its id.
 */
export function animalsCsv(rows: readonly AnimalRow[], nameOf: (section: string) => string, demo: boolean): string {
  const fields = [...columns.map(([name]) => name), ...(demo ? ['invented'] : [])];
  const data = rows.map((row) => {
    const named = row.section === null ? row : { ...row, section: nameOf(row.section) };
    return [...columns.map(([, value]) => value(named) ?? ''), ...(demo ? ['yes'] : [])];
  });
  return csvText(fields, data);
}
