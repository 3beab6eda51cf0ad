import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LogStore } from '../../src/log/store.js';
import { memoryStore } from '../../src/store/memory/store.js';
import { openStore } from '../../src/store/sqlite/open.js';
import { type Opened, storeContract } from './store.js';

async function opened(folder: string): Promise<LogStore> {
  const store = await openStore(folder);
  if (!store.ok) throw new Error(JSON.stringify(store.why));
  return store.value;
}

/** Every kind of store there is. A kind that is not here may not be used. */
const kinds = {
  memory: async (): Promise<Opened> => {
    const store = memoryStore();
    // Lives in one process only, so nobody else can open the same log.
    return { store, another: null, dispose: store.close };
  },
  SQLite: async (): Promise<Opened> => {
    const folder = mkdtempSync(join(tmpdir(), 'roundhand-contract-'));
    const stores = [await opened(folder)];
    const [store] = stores as [LogStore];
    return {
      store,
      another: async () => {
        const other = await opened(folder);
        stores.push(other);
        return other;
      },
      dispose: async () => {
        for (const one of stores) await one.close();
        rmSync(folder, { recursive: true, force: true });
      },
    };
  },
} as const satisfies Record<string, () => Promise<Opened>>;

for (const [kind, make] of Object.entries(kinds)) storeContract(kind, make);
