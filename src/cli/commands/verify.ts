import { said } from '../../core/said.js';
import { verifyStore } from '../../store/verify.js';
import { say } from '../../words/say.js';
import { type Command, dataOption } from '../command.js';
import { withStore } from '../data-folder.js';
import { done } from '../exit.js';
import { complain, tell, withWords } from '../output.js';

/** Follow the chain, rebuild the read tables and compare. Changes nothing. */
export const verify: Command = {
  name: 'verify',
  options: { ...dataOption, json: {} },
  example: 'verify --data ~/roundhand',
  run: (given) =>
    withStore(given, async (store) => {
      const report = await verifyStore(store);
      if (given.flag('json')) tell(JSON.stringify(withWords(report)));
      else tell(say(said('cli.verify.read', { records: report.records, head: report.head.hash })));
      if (report.whole) {
        if (!given.flag('json')) tell(say('cli.verify.whole'));
        return done;
      }
      if (!report.chain.whole) complain(said('cli.verify.chain-broken', { seq: report.chain.brokenAt }));
      for (const one of report.unreadable) complain(said('cli.verify.unreadable', { seq: one.seq, why: one.why }));
      for (const detail of report.engine) complain(said('cli.verify.engine', { detail }));
      for (const { table, missing, extra, different } of report.tables) {
        if (missing + extra + different === 0) continue;
        complain(said('cli.verify.table', { table, missing, extra, different }));
      }
      return { code: 1 };
    }),
};
