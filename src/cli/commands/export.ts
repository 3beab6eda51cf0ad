import { dayOfInstant } from '../../core/calendar.js';
import { type Said, said } from '../../core/said.js';
import { animalsCsv } from '../../exports/animals-csv.js';
import { dueCsv } from '../../exports/due-csv.js';
import type { Blobs } from '../../log/blobs.js';
import type { LogStore } from '../../log/store.js';
import { lostInWords } from '../../log/views/documents/lost-documents.js';
import type { Shelter } from '../../log/views/shelter.js';
import { dueLines, nothingBecause } from '../../server/routes/due.js';
import { copyBlobs } from '../../store/blobs/copy.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { exportRecords } from '../../store/export.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { blobsBeside, complainOfUnread, withStore, withWorld } from '../data-folder.js';
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
    if (what === 'records') {
      return withStore(given, async (store) => {
        const faults: Said[] = [];
        const broken = (seq: number): void => void faults.push(said('server.verify.chain-broken', { seq }));
        const sent = await send(exportRecords(store, broken));
        for (const fault of faults) complain(fault);
        // No picture goes beside a file that was there already, or could not be written.
        const whole = sent.code !== 0 || (await sendPictures(blobsBeside(given), file));
        return sent.code === 0 && (!whole || faults.length > 0) ? { code: 1 } : sent;
      });
    }
    return withWorld(given, async (world, store) => {
      const { shelter } = world;
      const lost = what === 'due' ? lostInWords(shelter) : null;
      if (lost !== null) return failed(lost);
      complainOfUnread(world);
      return send(tableOf(what, store, shelter));
    });
  },
};

/**
 * The pictures go into a folder beside the file, laid out as the one that they come from. False when one is damaged and was
 * left out.
 */
async function sendPictures(blobs: Blobs, file: string | null): Promise<boolean> {
  const ids = await blobs.list();
  if (ids.length === 0) return true;
  if (file === null) {
    complain(said('cli.export.pictures-left', { count: ids.length }));
    return true;
  }
  const folder = `${file}.${blobsFolder}`;
  const { copied, damaged } = await copyBlobs(blobs, folderBlobs(folder));
  for (const id of damaged) complain(said('cli.verify.picture-damaged', { id }));
  complain(said('cli.export.pictures', { count: copied, folder }));
  return damaged.length === 0;
}

async function* tableOf(what: string, store: LogStore, shelter: Shelter): AsyncGenerator<string> {
  if (what === 'animals') {
    const names = new Map(shelter.sections.map((section) => [section.id as string, section.name]));
    yield animalsCsv(await store.rows('animals'), (id) => names.get(id) ?? id, shelter.demo);
  } else {
    const on = dayOfInstant(new Date().toISOString(), shelter.zone);
    yield dueCsv(await dueLines(store, shelter, on, say), shelter.demo, nothingBecause(shelter, say));
  }
}
