import { createReadStream, existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { said } from '../../core/said.js';
import { copyBlobs } from '../../store/blobs/copy.js';
import { blobsFolder, folderBlobs } from '../../store/blobs/folder.js';
import { storeFromExport } from '../../store/sqlite/from-export.js';
import { openStore } from '../../store/sqlite/open.js';
import { say, setZone } from '../../words/say.js';
import type { Command } from '../command.js';
import { done, failed, misused } from '../exit.js';
import { complain, tell } from '../output.js';

/** Records back into a folder that has none: from a whole export. Writes over nothing. */
export const restore: Command = {
  name: 'restore',
  options: { from: { value: 'FILE' }, to: { value: 'DIR' } },
  example: 'restore --from records.jsonl --to ~/roundhand-new',
  run: async (given) => {
    const [from, to] = [given.text('from'), given.text('to')];
    if (from === null || to === null) return misused('cli.restore.from-and-to');
    const file = resolve(from);
    if (!existsSync(file)) return failed(said('cli.file-missing', { file }));
    if (statSync(file).isDirectory()) return failed(said('cli.file-is-folder', { file }));
    const lines = createInterface({ input: createReadStream(file), crlfDelay: Number.POSITIVE_INFINITY });
    const made = await storeFromExport(lines, resolve(to), new Date().toISOString());
    if (!made.ok) return failed(made.why);
    const { damaged } = await copyBlobs(
      folderBlobs(`${file}.${blobsFolder}`),
      folderBlobs(join(resolve(to), blobsFolder)),
    );
    for (const id of damaged) complain(said('cli.verify.picture-damaged', { id }));
    const { records, receivedAt } = made.value;
    setZone(await zoneIn(resolve(to)));
    tell(say('cli.restore.done', { records, folder: resolve(to), at: { instant: receivedAt ?? '' } }));
    return damaged.length === 0 ? done : { code: 1 };
  },
};

/** The zone of the shelter that is there now. */
async function zoneIn(folder: string): Promise<string> {
  const store = await openStore(folder);
  if (!store.ok) return 'UTC';
  try {
    return (await store.value.shelter()).zone;
  } finally {
    await store.value.close();
  }
}
