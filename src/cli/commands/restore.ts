import { existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { said } from '../../core/said.js';
import { putBack } from '../../server/copies/put-back.js';
import { say, setZone } from '../../words/say.js';
import type { Command } from '../command.js';
import { done, failed, misused } from '../exit.js';
import { complain, tell } from '../output.js';
import { readPassphrase } from '../passphrase.js';

/** Records back into a folder that has none: from a copy or a whole export. Writes over nothing. */
export const restore: Command = {
  name: 'restore',
  options: { from: { value: 'FILE' }, to: { value: 'DIR' }, 'passphrase-file': { value: 'FILE' } },
  example: 'restore --from /media/copies/roundhand-2026-03-02-12-00-00.tar --to ~/roundhand-new',
  run: async (given) => {
    const [from, to] = [given.text('from'), given.text('to')];
    if (from === null || to === null) return misused('cli.restore.from-and-to');
    const [file, folder] = [resolve(from), resolve(to)];
    if (!existsSync(file)) return failed(said('cli.file-missing', { file }));
    if (statSync(file).isDirectory()) return failed(said('cli.file-is-folder', { file }));
    const passphrase = readPassphrase(given);
    if (!passphrase.ok) return failed(passphrase.why);
    const made = await putBack(file, folder, passphrase.value, new Date().toISOString());
    if (!made.ok) return failed(made.why);
    const { records, receivedAt, zone, damaged } = made.value;
    for (const id of damaged) complain(said('cli.verify.picture-damaged', { id }));
    setZone(zone);
    tell(say('cli.restore.done', { records, folder, at: { instant: receivedAt ?? '' } }));
    return damaged.length === 0 ? done : { code: 1 };
  },
};
