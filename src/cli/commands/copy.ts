import { resolve } from 'node:path';
import { makeCopy } from '../../server/copies/make-copy.js';
import { headsOf } from '../../store/tree-heads.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { blobsBeside, dataFolder, withStore } from '../data-folder.js';
import { done, failed, misused } from '../exit.js';
import { tell } from '../output.js';
import { readPassphrase } from '../passphrase.js';

/** One copy now, by hand: what the server makes by itself with --copies. */
export const copying: Command = {
  name: 'copy',
  options: { ...dataOption, out: { value: 'DIR' }, 'passphrase-file': { value: 'FILE' } },
  example: 'copy --data ~/roundhand --out /media/copies',
  run: async (given) => {
    const out = given.text('out');
    if (out === null) return misused('cli.copy.out-missing');
    const passphrase = readPassphrase(given);
    if (!passphrase.ok) return failed(passphrase.why);
    return withStore(given, async (store) => {
      const now = new Date().toISOString();
      const heads = headsOf(store, dataFolder(given), () => now);
      const what = { backUp: store.backUp, blobs: blobsBeside(given), heads };
      const made = await makeCopy(what, { folder: resolve(out), passphrase: passphrase.value }, now);
      if (!made.ok) return failed(made.why);
      tell(say('cli.copy.done', { file: made.value }));
      return done;
    });
  },
};
