import { dayOfInstant } from '../../core/calendar.js';
import { said } from '../../core/said.js';
import type { LogStore } from '../../log/store.js';
import { lostInWords } from '../../log/views/lost-documents.js';
import type { Shelter } from '../../log/views/shelter.js';
import { dueCsv } from '../../server/due-csv.js';
import { dueLines } from '../../server/routes/due.js';
import { exportRecords } from '../../store/export.js';
import { say } from '../../words/say.js';
import { animalsCsv } from '../animals-csv.js';
import { type Command, dataOption } from '../command.js';
import { complainOfUnread, withStore, withWorld } from '../data-folder.js';
import { done, type Exit, failed } from '../exit.js';
import { complain, pour } from '../output.js';
import { writeNewFile } from '../write-file.js';

/** All records as JSON lines, or the animals or the due list as CSV, to stdout or into a new file. */
export const exporting: Command = {
  name: 'export',
  argument: { word: 'WHAT', required: false, oneOf: ['records', 'animals', 'due'] },
  options: { ...dataOption, out: { value: 'FILE' } },
  example: 'export animals --out animals.csv',
  run: (given) => {
    const what = given.argument ?? 'records';
    const file = given.text('out');
    const send = async (pieces: AsyncIterable<string>): Promise<Exit> => {
      if (file === null) {
        await pour(pieces);
        return done;
      }
      const written = await writeNewFile(file, pieces);
      if (written.code === 0) complain(said('cli.export.written', { file }));
      return written;
    };
    // The records go out as they lie, without being understood first: also those of a newer version.
    if (what === 'records') return withStore(given, (store) => send(exportRecords(store)));
    return withWorld(given, async (world, store) => {
      const { shelter } = world;
      const lost = what === 'due' ? lostInWords(shelter) : null;
      if (lost !== null) return failed(lost);
      complainOfUnread(world);
      return send(tableOf(what, store, shelter));
    });
  },
};

async function* tableOf(what: string, store: LogStore, shelter: Shelter): AsyncGenerator<string> {
  if (what === 'animals') {
    const names = new Map(shelter.sections.map((section) => [section.id as string, section.name]));
    yield animalsCsv(await store.rows('animals'), (id) => names.get(id) ?? id, shelter.demo);
  } else {
    const on = dayOfInstant(new Date().toISOString(), shelter.zone);
    yield dueCsv(await dueLines(store, shelter, on, say), shelter.demo);
  }
}
