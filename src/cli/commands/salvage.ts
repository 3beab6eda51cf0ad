import { resolve } from 'node:path';
import { said } from '../../core/said.js';
import { openStore } from '../../store/sqlite/open.js';
import { type Salvaged, salvage } from '../../store/sqlite/salvage/salvage.js';
import { say } from '../../words/say.js';
import type { Command } from '../command.js';
import { done, failed, misused } from '../exit.js';
import { complain, tell } from '../output.js';

/** Places and devices named one by one; all of them are in the JSON. */
const mostLines = 40;

/** Save what can be read of a damaged store into a new one, and name what is missing. The damaged one is only read. */
export const salvaging: Command = {
  name: 'salvage',
  options: { from: { value: 'DIR' }, to: { value: 'DIR' }, json: {} },
  example: 'salvage --from ~/roundhand --to ~/roundhand-saved',
  run: async (given) => {
    const from = given.text('from');
    const to = given.text('to');
    if (from === null || to === null) return misused('cli.salvage.from-and-to');
    const saved = await salvage(resolve(from), resolve(to), new Date().toISOString());
    if (!saved.ok) return failed(saved.why);
    const { records, places, endKnown, missing, pictures, devices } = saved.value;
    if (given.flag('json')) tell(JSON.stringify(saved.value));
    else tell(say('cli.salvage.saved', { records, places, folder: resolve(to) }));
    if (pictures.saved > 0 && !given.flag('json')) tell(say('cli.salvage.pictures', { count: pictures.saved }));
    for (const id of pictures.damaged) complain(said('cli.salvage.picture-damaged', { id }));
    const names = await namesIn(resolve(to));
    for (const run of missing.slice(0, mostLines)) complain(missingInWords(run, names));
    for (const { device, numbers } of devices.slice(0, mostLines)) {
      const list = numbers.map(([first, last]) => (first === last ? String(first) : `${first}-${last}`));
      complain(said('cli.salvage.device', { device, numbers: { list } }));
    }
    const unsaid = Math.max(0, missing.length - mostLines) + Math.max(0, devices.length - mostLines);
    if (unsaid > 0) complain(said('cli.salvage.more', { count: unsaid }));
    if (!endKnown) complain(said('cli.salvage.end-unknown'));
    if (missing.length > 0) complain(said('cli.salvage.devices-send'));
    return missing.length === 0 && pictures.damaged.length === 0 && endKnown ? done : { code: 1 };
  },
};

function missingInWords({ from, to, subjects }: Salvaged['missing'][number], names: ReadonlyMap<string, string>) {
  const values = { count: to - from + 1, from, to };
  if (subjects.length === 0) return said('cli.salvage.missing', values);
  const list = subjects.map((subject) => names.get(subject) ?? subject);
  return said('cli.salvage.missing-about', { ...values, about: { list } });
}

/** What people call the animals that are in the saved log, by the subject of their records. */
async function namesIn(folder: string): Promise<ReadonlyMap<string, string>> {
  const opened = await openStore(folder);
  if (!opened.ok) return new Map();
  try {
    const animals = await opened.value.rows('animals');
    return new Map(
      animals.map(({ animal, name, label }) => [
        `animal:${animal}`,
        [name, label].filter((part) => part !== '').join(' '),
      ]),
    );
  } finally {
    await opened.value.close();
  }
}
