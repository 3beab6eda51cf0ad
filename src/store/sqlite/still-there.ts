import { existsSync, statSync } from 'node:fs';
import { said } from '../../core/said.js';
import { type LogStore, StoreTrouble } from '../../log/store.js';

/**
 * A store that does nothing while its file is not where it was opened. A file that was deleted, or that another one has
 * taken the place of, can be read and written by whoever has it open, and what is kept in it is gone with the program.
 * What is put back as it was is used again.
 */
export function whileThere(store: LogStore, file: string): LogStore {
  const opened = statSync(file);
  const look = (): void => {
    const now = statSync(file, { throwIfNoEntry: false });
    if (now === undefined || now.ino !== opened.ino || now.dev !== opened.dev) throw gone(file);
  };
  const there =
    <Args extends unknown[], Result>(work: (...args: Args) => Promise<Result>) =>
    async (...args: Args): Promise<Result> => {
      look();
      return await work(...args);
    };
  return {
    ...store,
    append: async (batch, receivedAt) => {
      look();
      const kept = await store.append(batch, receivedAt);
      // Deleted while it was being written to: nobody may be told that it was kept. New records lie in the journal first.
      look();
      if (kept.some(({ outcome }) => outcome === 'stored') && !existsSync(`${file}-wal`)) throw gone(file);
      return kept;
    },
    read: there(store.read),
    held: there(store.held),
    animals: there(store.animals),
    shelter: there(store.shelter),
    unreadable: there(store.unreadable),
    counts: there(store.counts),
    upToDate: there(store.upToDate),
    head: there(store.head),
    rows: there(store.rows) as LogStore['rows'],
    rebuild: there(store.rebuild),
    faults: there(store.faults),
  };
}

const gone = (file: string): StoreTrouble => new StoreTrouble('gone', said('server.store.gone', { file }));
