import type { LocalStore } from './store.js';

/** Ask the browser to keep the data when space is short, and show its answer. */
export async function askToKeep(store: LocalStore): Promise<void> {
  const storage = navigator.storage as StorageManager | undefined;
  if (storage?.persist === undefined) return;
  const kept = (await storage.persisted()) || (await storage.persist());
  store.say({ kept });
}
