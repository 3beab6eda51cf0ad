import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { v7 } from 'uuid';
import { dayOfInstant } from '../../core/calendar.js';
import { AnimalId } from '../../core/ids.js';
import { columnsInWords } from '../../core/intake/columns/fields.js';
import { guessMapping, noticesOf } from '../../core/intake/columns/guess-mapping.js';
import { readHabits } from '../../core/intake/columns/habits.js';
import { decodeText } from '../../core/intake/file/decode.js';
import { readTable } from '../../core/intake/file/table.js';
import { planImport } from '../../core/intake/plan-import.js';
import type { ImportContext } from '../../core/intake/taken-in.js';
import { said } from '../../core/said.js';
import { alreadyThere, draftsFromFile } from '../../log/commands/from-file.js';
import type { World } from '../../log/views/world.js';
import { mayAppend } from '../../log/who-may.js';
import type { SqliteStore } from '../../store/sqlite/open.js';
import { say } from '../../words/say.js';
import { append } from '../append.js';
import type { Given } from '../command.js';
import { type Command, dataOption } from '../command.js';
import { withWorld } from '../data-folder.js';
import { done, type Exit, failed, isExit, misused } from '../exit.js';
import { personCalled } from '../find.js';
import { importAnswers, mappingFrom, readDelimiter } from '../import-answers.js';
import { importAsJson, importInWords, type Seen } from '../import-in-words.js';
import { tell } from '../output.js';

/** Bring animals in from a file: what would happen, and with `--by` it happens, all rows or none. */
export const importing: Command = {
  name: 'import',
  argument: { word: 'FILE', required: true },
  options: {
    ...dataOption,
    'dry-run': {},
    by: { value: 'NAME' },
    doubtful: {},
    map: { value: 'COLUMN=FIELD', many: true },
    place: { value: 'PLACE=ANSWER', many: true },
    delimiter: { value: 'SIGN', oneOf: ['comma', 'semicolon', 'tab', 'bar'] },
    'date-order': { value: 'ORDER', oneOf: ['day-first', 'month-first'] },
    decimal: { value: 'SIGN', oneOf: ['point', 'comma'] },
    'age-on': { value: 'DAY' },
    unit: { value: 'UNIT', oneOf: ['g', 'kg', 'lb', 'oz'] },
    'also-left': {},
    json: {},
  },
  example: 'import animals.csv --dry-run --map "Tag no=label" --place "Truck=Intake"',
  run: (given) => {
    const file = given.argument ?? '';
    const bytes = bytesOf(file);
    if (isExit(bytes)) return Promise.resolve(bytes);
    return withWorld(given, (world, store) => importFile(file, bytes, given, world, store));
  },
};

function bytesOf(file: string): Uint8Array | Exit {
  try {
    return readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    if (code === 'ENOENT') return failed(said('cli.file-missing', { file }));
    if (code === 'EISDIR') return failed(said('cli.file-is-folder', { file }));
    return failed(
      said('cli.file-unreadable', { file, detail: error instanceof Error ? error.message : String(error) }),
    );
  }
}

async function importFile(
  file: string,
  bytes: Uint8Array,
  given: Given,
  world: World,
  store: SqliteStore,
): Promise<Exit> {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return failed(said('cli.import.not-taken', { file, why: decoded.why }));
  const table = readTable(decoded.value.text, readDelimiter(given));
  const guess = guessMapping(
    table.headings,
    table.rows.map((row) => row.cells),
  );
  const mapping = mappingFrom(given, table.headings, guess.mapping);
  if (isExit(mapping)) return mapping;
  const now = new Date().toISOString();
  const today = dayOfInstant(now, world.shelter.zone);
  const answers = importAnswers(given, world.shelter, table.headings, today);
  if (isExit(answers)) return answers;
  const habits = readHabits(table, mapping, today);
  const context: ImportContext = {
    file: createHash('sha256').update(bytes).digest('hex'),
    today,
    sections: world.shelter.sections.filter((section) => !section.closed),
    dateOrder: answers.dateOrder ?? habits.dateOrder,
    decimal: answers.decimal ?? habits.decimal,
    weightUnit: answers.weightUnit ?? habits.weightUnit,
    places: answers.places,
    ageDay: answers.ageDay,
    tellsNothing: answers.tellsNothing,
    alsoLeft: given.flag('also-left'),
  };
  const plan = planImport(table, mapping, context, alreadyThere(world));
  const questions = habits.questions.filter((question) => answers[question.about] === null);
  const doubts = noticesOf(table.headings, guess, mapping);
  const seen: Seen = { file, decoded: decoded.value, table, mapping, doubts, questions, context, plan };
  if (given.flag('json')) tell(JSON.stringify(importAsJson(seen)));
  else for (const line of importInWords(seen)) tell(line);
  if (given.flag('dry-run')) return done;
  return keep(seen, given, world, store, now);
}

/** Record the rows that are let through, as one batch. */
async function keep(seen: Seen, given: Given, world: World, store: SqliteStore, now: string): Promise<Exit> {
  const { file, table, mapping, context, plan } = seen;
  const name = given.text('by');
  if (name === null) return misused('cli.import.by-whom');
  const person = personCalled(world.shelter, name);
  if (isExit(person)) return person;
  if (!mayAppend(person.role, 'file-imported')) return failed(said('cli.import.may-not', { name: person.name }));
  const [open] = plan.mayTell;
  if (open !== undefined) return failed(said('cli.import.may-tell-open', { heading: open.heading }));
  const chosen = plan.rows.filter(
    (row) => row.verdict === 'accepted' || (row.verdict === 'doubtful' && given.flag('doubtful')),
  );
  if (chosen.length === 0) {
    if (!given.flag('json')) tell(say('cli.import.nothing'));
    return done;
  }
  const drafts = draftsFromFile(
    chosen.map((row) => ({ row, animal: AnimalId.parse(v7()) })),
    {
      name: basename(file).slice(0, 200),
      digest: context.file,
      accepted: plan.counts.accepted,
      doubtful: plan.counts.doubtful,
      refused: plan.counts.refused,
      columns: columnsInWords(table.headings, mapping),
    },
    now,
    world.shelter.zone,
  );
  const kept = await append(drafts, world, store, person.id, now);
  if (isExit(kept)) return kept;
  if (!given.flag('json')) tell(say('cli.import.done', { animals: chosen.length, rows: table.rows.length }));
  return done;
}
