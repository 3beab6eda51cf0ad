import { type Outcome, said } from '../../core/said.js';
import { PrivateChange, type PrivatePerson, type PrivateSide } from '../../log/private-side.js';
import { openSignIns } from '../../store/private/sign-ins.js';
import { openPrivateSide } from '../../store/private/sqlite.js';
import { say } from '../../words/say.js';
import { type Command, dataOption, type Given } from '../command.js';
import { dataFolder, holdsRecords } from '../data-folder.js';
import { done, type Exit, failed, misused } from '../exit.js';
import { complain, pour, tell } from '../output.js';
import { jsonLines } from '../read-lines.js';
import { writeNewFile } from '../write-file.js';

const ways = ['list', 'export', 'take', 'withdraw', 'erase'] as const;

/**
 * The private side by a door of its own: who the people are, as a list or as JSON lines to keep apart from the records;
 * such lines taken in again; names withdrawn from devices; people erased for good. No record is touched.
 */
export const people: Command = {
  name: 'people',
  argument: { word: 'WHAT', required: false, oneOf: ways },
  options: { ...dataOption, out: { value: 'FILE' }, person: { value: 'ID', many: true } },
  example: 'people export --out people.jsonl',
  run: async (given) => {
    const what = given.argument ?? 'list';
    if (what === 'take' && process.stdin.isTTY) return misused('cli.needs-stdin', { command: 'people take' });
    const folder = dataFolder(given);
    if (!holdsRecords(folder)) return failed(said('cli.no-records', { folder }));
    const side: Outcome<PrivateSide> = openPrivateSide(folder);
    if (!side.ok) return failed(side.why);
    try {
      if (what === 'list' || what === 'export') return await show(what, await side.value.people(), given.text('out'));
      return what === 'take' ? await take(side.value) : await change(what, side.value, given, folder);
    } finally {
      await side.value.close();
    }
  },
};

async function show(what: string, all: readonly PrivatePerson[], file: string | null): Promise<Exit> {
  const lines = all.map((one) => (what === 'export' ? `${JSON.stringify(one)}\n` : `${inWords(one)}\n`));
  if (file === null) {
    await pour(lines);
    return done;
  }
  // As private as the side it comes from.
  const written = await writeNewFile(file, lines, 0o600);
  if (written.code === 0) complain(said('cli.people.written', { file, count: all.length }));
  return written;
}

const inWords = ({ id, name, licence, contacts, withdrawn }: PrivatePerson): string =>
  [id, name, licence, ...contacts.map(({ value }) => value), withdrawn ? say('cli.people.withdrawn') : '']
    .filter((part) => part !== '')
    .join('  ');

/** Each line is answered on its own; one that cannot be read changes nothing for the others. */
async function take(side: PrivateSide): Promise<Exit> {
  let worst: 0 | 1 = 0;
  for await (const burst of jsonLines()) {
    for (const { line, value } of burst) {
      const read = PrivateChange.safeParse(value);
      const outcome = read.success ? ((await side.change([read.data]))[0] ?? 'kept') : 'malformed';
      tell(JSON.stringify({ line, id: read.data?.id ?? null, outcome }));
      if (outcome === 'kept') continue;
      worst = 1;
      complain(said('cli.people.not-taken', { line, why: said(`cli.people.${outcome}`) }));
    }
  }
  return { code: worst };
}

/** Names are no ids here: two people may have one name, and what is erased does not come back. */
async function change(what: string, side: PrivateSide, given: Given, folder: string): Promise<Exit> {
  const ids = given.texts('person');
  if (ids.length === 0) return misused('cli.people.which');
  const there = new Map((await side.people()).map((one) => [one.id as string, one]));
  const unknown = ids.find((id) => !there.has(id));
  if (unknown !== undefined) return misused('cli.people.no-such', { person: unknown });
  const chosen = ids.flatMap((id) => there.get(id) ?? []).map(({ id }) => id);
  if (what === 'erase') {
    await side.erase(chosen);
    const signIns = openSignIns(folder);
    if (!signIns.ok) return failed(signIns.why);
    for (const id of chosen) signIns.value.forget(id);
    signIns.value.close();
  } else await side.change(chosen.map((id) => ({ id, withdrawn: true })));
  tell(say(what === 'erase' ? 'cli.people.erased-now' : 'cli.people.withdrawn-now', { count: chosen.length }));
  return done;
}
