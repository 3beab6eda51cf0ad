import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { said } from '../../core/said.js';
import { openPrivateSide, privateFile } from '../../store/private/sqlite.js';
import type { SqliteStore } from '../../store/sqlite/open.js';
import { headFaults } from '../../store/tree-heads.js';
import { verifyStore } from '../../store/verify.js';
import { faultsInWords } from '../../store/verify-in-words.js';
import { type PictureReport, verifyPictures } from '../../store/verify-pictures.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { blobsBeside, dataFolder, withStore } from '../data-folder.js';
import { done } from '../exit.js';
import { complain, tell, withWords } from '../output.js';

/** Follow the chain, work the read tables out again and compare. Changes nothing. */
export const verify: Command = {
  name: 'verify',
  options: { ...dataOption, json: {} },
  example: 'verify --data ~/roundhand',
  run: (given) =>
    withStore(given, async (store) => {
      const records = await verifyStore(store);
      const pictures = await verifyPictures(store, blobsBeside(given));
      const people = await lookAtPeople(store, dataFolder(given));
      const heads = await headFaults(store, dataFolder(given));
      const whole = records.whole && pictures.whole && people.faults.length === 0 && heads.wrong.length === 0;
      const report = { ...records, pictures, people, heads, whole };
      if (given.flag('json')) tell(JSON.stringify(withWords(report)));
      else tell(say(said('cli.verify.read', { records: report.records, head: report.head.hash })));
      if (!given.flag('json')) tellOfPictures(pictures);
      if (!given.flag('json'))
        tell(say(said('cli.verify.people', { people: people.people, nameless: people.nameless })));
      if (!given.flag('json')) tell(say(said('cli.verify.heads', { count: heads.kept })));
      if (report.whole) {
        if (!given.flag('json')) tell(say('cli.verify.whole'));
        return done;
      }
      for (const fault of faultsInWords(report)) complain(said('cli.verify.fault', { fault }));
      for (const detail of people.faults) complain(said('cli.verify.people-fault', { detail }));
      for (const { size, at } of heads.wrong) complain(said('cli.verify.head-wrong', { size, at }));
      for (const id of pictures.missing) complain(said('cli.verify.picture-missing', { id }));
      for (const id of pictures.damaged) complain(said('cli.verify.picture-damaged', { id }));
      return { code: 1 };
    }),
};

/** The private side beside the records: whether its file is in order, and how many people of the records have no name there. */
async function lookAtPeople(store: SqliteStore, folder: string) {
  const ids = (await store.rows('people')).map(({ person }) => person);
  const none = { people: 0, nameless: ids.length };
  if (!existsSync(join(folder, privateFile))) return { ...none, faults: [] };
  const side = openPrivateSide(folder);
  if (!side.ok) return { ...none, faults: [say(side.why)] };
  const known = new Set((await side.value.people()).map(({ id }) => id as string));
  const faults = await side.value.faults();
  await side.value.close();
  return { people: known.size, nameless: ids.filter((id) => !known.has(id)).length, faults };
}

function tellOfPictures({ pictures, unreferenced }: PictureReport): void {
  tell(say(said('cli.verify.pictures', { pictures })));
  if (unreferenced.length > 0) tell(say(said('cli.verify.pictures-unreferenced', { count: unreferenced.length })));
}
