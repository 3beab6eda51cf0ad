import { type ColumnMapping, columnsInWords, fields } from '../core/intake/columns/fields.js';
import type { HabitQuestion } from '../core/intake/columns/habits.js';
import type { Decoded } from '../core/intake/file/decode.js';
import type { Table } from '../core/intake/file/table.js';
import type { ColumnToAsk, ImportPlan } from '../core/intake/plan-import.js';
import type { ImportContext, ReadRow } from '../core/intake/taken-in.js';
import { type Said, type SayValue, said } from '../core/said.js';
import { say } from '../words/say.js';
import { withWords } from './output.js';

/** Everything an import found out about a file. */
export interface Seen {
  readonly file: string;
  readonly decoded: Decoded;
  readonly table: Table;
  readonly mapping: ColumnMapping;
  readonly doubts: readonly Said[];
  readonly questions: readonly HabitQuestion[];
  readonly context: ImportContext;
  readonly plan: ImportPlan;
}

const signNames = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' } as const;
const optionFor = { dateOrder: '--date-order', decimal: '--decimal', weightUnit: '--unit' } as const;

/** What was recognised, what has to be answered, and every row that is not simply accepted. */
export function importInWords({ file, decoded, table, mapping, doubts, questions, context, plan }: Seen): string[] {
  const { encoding } = decoded;
  const lines = [say('cli.import.file', { file, rows: table.rows.length, encoding, sign: signNames[table.delimiter] })];
  for (const field of fields) {
    const headings = (mapping[field] ?? []).map((column) => table.headings[column] ?? '');
    if (headings.length === 0) continue;
    lines.push(say('cli.import.column', { field: said(`import.field-${field}`), headings: { list: headings } }));
  }
  const used = new Set(Object.values(mapping).flat());
  const unused = table.headings.filter((_, column) => !used.has(column));
  if (unused.length > 0) lines.push(say('cli.import.unused', { list: { list: unused } }));
  if (context.decimal !== null) lines.push(say('cli.import.decimal', { sign: context.decimal }));
  if (context.dateOrder !== null) lines.push(say(`cli.import.${context.dateOrder}`));
  const aboutFile = table.problems.filter((problem) => !table.rows.some((row) => row.problems.includes(problem)));
  for (const doubt of [...decoded.doubts, ...aboutFile, ...doubts]) lines.push(say('cli.import.doubt', { doubt }));
  for (const { ask, about } of questions) {
    lines.push(say('cli.import.question', { question: ask, option: optionFor[about] }));
  }
  for (const column of plan.mayTell) {
    lines.push(say('cli.import.may-tell', { question: askMayTell(column), heading: column.heading }));
  }
  if (plan.ages !== null) {
    const question = said('import.ask-age-day', { ...plan.ages });
    lines.push(say('cli.import.question', { question, option: '--age-on' }));
  }
  for (const { place, rows } of plan.places) {
    const option = `--place "${place}=SECTION"`;
    lines.push(say(place === '' ? 'cli.import.no-place' : 'cli.import.place-question', { place, rows, option }));
  }
  lines.push('', say('cli.import.counts', { ...plan.counts }));
  for (const row of plan.rows.filter((one) => one.verdict === 'doubtful')) {
    lines.push(say('cli.import.doubtful-row', { row: row.row, called: called(row), why: sentences(row.reasons) }));
  }
  return [...lines, ...refusals(plan.rows)];
}

const askMayTell = ({ heading, rows, example }: ColumnToAsk): Said =>
  said('import.ask-may-tell', { heading, rows, example });

const called = ({ name, label }: ReadRow): string => [label, name].filter((text) => text !== '').join(' ');

/** Several sentences in a row. */
const sentences = (reasons: readonly Said[]): SayValue => reasons.map((reason) => say(reason)).join(' ');

/** Refused rows by reason, the rows named as far as they fit in a line. */
function refusals(rows: readonly ReadRow[]): string[] {
  const byReason = new Map<string, number[]>();
  for (const row of rows) {
    if (row.verdict !== 'refused') continue;
    for (const reason of row.reasons)
      byReason.set(groupOf(reason), [...(byReason.get(groupOf(reason)) ?? []), row.row]);
  }
  return [...byReason].map(([reason, of]) => {
    const some = of.slice(0, 12).join(', ');
    return say(of.length > 12 ? 'cli.import.refused-many' : 'cli.import.refused', {
      reason,
      count: of.length,
      rows: some,
    });
  });
}

/** Reasons that differ only in a day or a species stand in one line. */
const groupOf = (reason: Said): string =>
  reason.say === 'import.left-already' || reason.say === 'import.other-stay' || reason.say === 'import.already-there'
    ? say(`cli.${reason.say}`)
    : say(reason);

/** The same for programs; the shape is described in docs/command-line.md. */
export function importAsJson({ file, decoded, table, mapping, doubts, questions, context, plan }: Seen): unknown {
  return withWords({
    file,
    digest: context.file,
    encoding: decoded.encoding,
    delimiter: signNames[table.delimiter],
    columns: columnsInWords(table.headings, mapping),
    doubts: [...decoded.doubts, ...table.problems, ...doubts],
    questions: [
      ...questions.map(({ about, ask }) => ({ option: optionFor[about], ask })),
      ...(plan.ages === null ? [] : [{ option: '--age-on', ask: said('import.ask-age-day', { ...plan.ages }) }]),
      ...plan.mayTell.map((column) => ({ option: '--map', ask: askMayTell(column) })),
    ],
    places: plan.places.map(({ place, rows }) => ({ place, rows })),
    counts: plan.counts,
    rows: plan.rows.map(({ row, line, verdict, label, name, key, reasons, notes, animal, weight, chip, left }) => ({
      row,
      line,
      verdict,
      label,
      name,
      key,
      reasons,
      notes,
      animal,
      weight,
      chip,
      left,
    })),
  });
}
