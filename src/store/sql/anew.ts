import { sql, type Transaction } from 'kysely';
import type { CalendarDate } from '../../core/calendar.js';
import { animalsAfter } from './animals.js';
import { bringUp, type Done } from './bring-up.js';
import { run } from './compiled.js';
import { emptyReadTables, makeReadTables, shapeChecksum } from './read-tables.js';
import { caughtUp, type Memory, nothingRead, shelterRows } from './shelter-memory.js';
import type { Database, HeadRow } from './tables.js';

/** Animals that are worked out before their rows are let go of again. */
const atOnce = 500;

/**
 * Write all read tables anew inside a transaction, animal by animal; also used on opening a store whose read tables are of
 * another shape.
 */
export async function rebuild(trx: Transaction<Database>, today: CalendarDate): Promise<Done> {
  const { head, now } = await takeTurn(trx, nothingRead());
  return await writeAnew(trx, head, now, today);
}

export async function writeAnew(
  trx: Transaction<Database>,
  head: HeadRow,
  now: Memory,
  today: CalendarDate,
): Promise<Done> {
  if (head.rows_shape === shapeChecksum) await emptyReadTables(trx);
  else await makeReadTables(trx);
  const empty = { ...now, known: new Map() };
  await bringUp(trx, nothingRead(), empty, today, null, await shelterRows(trx, 0));
  let known: Done['known'] = new Map();
  for (let after = ''; ; ) {
    const ids = await animalsAfter(trx, after, atOnce);
    if (ids.length === 0) break;
    ({ known } = await bringUp(trx, empty, empty, today, today, [], ids));
    after = ids.at(-1) ?? after;
  }
  await writeHead(trx, { rows_on: today, rows_shape: shapeChecksum });
  return { memory: { ...empty, stale: false }, known };
}

/** Wait for our turn to write, then say where the log stands, and what the shelter is there. */
export async function takeTurn(
  trx: Transaction<Database>,
  memory: Memory,
): Promise<{ readonly head: HeadRow; readonly now: Memory }> {
  const taking = () =>
    trx
      .updateTable('log_head')
      .set((row) => ({ turn: row('turn', '+', sql.lit(1)) }))
      .where('one', '=', sql.lit(1))
      .returningAll();
  const [head] = await run<HeadRow>(trx, 'take a turn', taking, []);
  if (head === undefined) throw new Error('the log has no head');
  const now = await caughtUp(trx, memory, head, head.turn - 1);
  return { head, now: { ...now, turn: head.turn } };
}

export async function writeHead(trx: Transaction<Database>, head: Partial<HeadRow>): Promise<void> {
  const names = Object.keys(head);
  const writing = () => trx.updateTable('log_head').set(head).where('one', '=', sql.lit(1));
  await run(trx, `head ${names.join()}`, writing, Object.values(head));
}
