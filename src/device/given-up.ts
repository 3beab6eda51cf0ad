import type { DBCore, DBCoreTransaction } from 'dexie';
import type { Db } from './db.js';

/**
 * WebKit keeps a page that was left as it stood, with the transactions that were under way; whatever is asked of their
 * tables then, by the next page too, waits for them for ever. They are given up when the page is put away like that: all or
 * nothing of each, as when a page is closed. What the page still waited for would never come; `comeBack` is called when
 * such a page is shown again. Call it before the database is opened.
 */
export function giveUpWhenLeft(db: Db, page: EventTarget, comeBack: () => void): void {
  const underWay = new Set<DBCoreTransaction>();
  db.use({
    stack: 'dbcore',
    name: 'given-up',
    create: (core: DBCore): DBCore => ({
      ...core,
      transaction: (tables, mode, options) => {
        const transaction = core.transaction(tables, mode, options);
        underWay.add(transaction);
        const over = (): boolean => underWay.delete(transaction);
        // What this library calls a transaction here is the browser's own.
        for (const end of ['complete', 'abort']) (transaction as unknown as IDBTransaction).addEventListener(end, over);
        return transaction;
      },
    }),
  });
  let gaveUp = false;
  page.addEventListener('pagehide', (event) => {
    if (!(event as PageTransitionEvent).persisted) return;
    for (const transaction of underWay) {
      gaveUp = true;
      try {
        transaction.abort();
      } catch {
        // It was over already and had not said so yet.
      }
    }
    underWay.clear();
  });
  page.addEventListener('pageshow', (event) => {
    if ((event as PageTransitionEvent).persisted && gaveUp) comeBack();
  });
}
