import { said } from '../../core/said.js';
import type { SignedHead } from '../../log/tree/signed-head.js';
import { headsOf, proveBeginning, proveRecord } from '../../store/tree-heads.js';
import { type Command, dataOption } from '../command.js';
import { dataFolder, withStore } from '../data-folder.js';
import { done, failed, misused } from '../exit.js';
import { tell } from '../output.js';

/** A proof that one record is in the log, or that an older log is its beginning; to be looked at without the records. */
export const prove: Command = {
  name: 'prove',
  argument: { word: 'RECORD', required: false },
  options: { ...dataOption, size: { value: 'NUMBER' }, since: { value: 'NUMBER' } },
  example: 'prove 0198c1d2-0000-7000-8000-000000000001 > proof.json',
  run: async (given) => {
    const record = given.argument;
    const [size, since] = [given.text('size'), given.text('since')];
    if ((record === null) === (since === null)) return misused('cli.prove.one-of');
    for (const number of [size, since])
      if (number !== null && !/^[1-9]\d*$/.test(number)) return misused('cli.prove.not-a-number', { given: number });
    return withStore(given, async (store) => {
      const heads = headsOf(store, dataFolder(given), () => new Date().toISOString());
      let head: SignedHead | undefined;
      if (size === null) {
        const signed = await heads.sign();
        if (!signed.ok) return failed(signed.why);
        head = signed.value;
      } else head = heads.kept().findLast((one) => one.size === Number(size));
      if (head === undefined) return failed(said('cli.prove.no-head', { size: size ?? '' }));
      const proof =
        record === null ? await proveBeginning(store, Number(since), head) : await proveRecord(store, record, head);
      if (proof !== null) {
        tell(JSON.stringify(proof));
        return done;
      }
      return failed(
        record === null
          ? said('cli.prove.not-that-many', { size: head.size, since: since ?? '' })
          : said('cli.prove.not-there', { size: head.size, record }),
      );
    });
  },
};
