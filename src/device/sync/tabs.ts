import { z } from 'zod';
import type { LocalStore } from '../store/store.js';

const Word = z.discriminatedUnion('is', [
  z.object({ is: z.literal('records'), ids: z.array(z.string()) }),
  z.object({ is: z.literal('who') }),
  z.object({ is: z.literal('people') }),
]);

/** Tabs of one device tell each other what they have written; each reads it from the database they share. */
export function shareBetweenTabs(store: LocalStore): void {
  if (typeof BroadcastChannel === 'undefined') return;
  const channel = new BroadcastChannel('roundhand');
  store.onKept((ids) => channel.postMessage({ is: 'records', ids }));
  store.people.onKept(() => channel.postMessage({ is: 'people' }));
  store.who.subscribe(() => channel.postMessage({ is: 'who' }));
  channel.addEventListener('message', (event: MessageEvent<unknown>) => {
    const word = Word.safeParse(event.data);
    if (!word.success) return;
    if (word.data.is === 'records') void store.rereadRecords(word.data.ids);
    else if (word.data.is === 'people') void store.people.reread();
    else void store.rereadWho();
  });
}
