import { said } from '../../core/said.js';
import { verifyStore } from '../../store/verify.js';
import { faultsInWords } from '../../store/verify-in-words.js';
import { type PictureReport, verifyPictures } from '../../store/verify-pictures.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { blobsBeside, withStore } from '../data-folder.js';
import { done } from '../exit.js';
import { complain, tell, withWords } from '../output.js';

/** Follow the chain, rebuild the read tables and compare. Changes nothing. */
export const verify: Command = {
  name: 'verify',
  options: { ...dataOption, json: {} },
  example: 'verify --data ~/roundhand',
  run: (given) =>
    withStore(given, async (store) => {
      const records = await verifyStore(store);
      const pictures = await verifyPictures(store, blobsBeside(given));
      const report = { ...records, pictures, whole: records.whole && pictures.whole };
      if (given.flag('json')) tell(JSON.stringify(withWords(report)));
      else tell(say(said('cli.verify.read', { records: report.records, head: report.head.hash })));
      if (!given.flag('json')) tellOfPictures(pictures);
      if (report.whole) {
        if (!given.flag('json')) tell(say('cli.verify.whole'));
        return done;
      }
      for (const fault of faultsInWords(report)) complain(said('cli.verify.fault', { fault }));
      for (const id of pictures.missing) complain(said('cli.verify.picture-missing', { id }));
      for (const id of pictures.damaged) complain(said('cli.verify.picture-damaged', { id }));
      return { code: 1 };
    }),
};

function tellOfPictures({ pictures, unreferenced }: PictureReport): void {
  tell(say(said('cli.verify.pictures', { pictures })));
  if (unreferenced.length > 0) tell(say(said('cli.verify.pictures-unreferenced', { count: unreferenced.length })));
}
