import type { InParts } from '../../core/in-parts.js';
import { noChips, withChips } from '../../log/chip-index.js';
import { type LogRecord, parseRecord } from '../../log/record.js';
import { buildWorld, type World } from '../../log/views/world.js';
import { type Db, readMeta, unreadIn } from '../db.js';
import { type Away, awayOf } from './away-here.js';
import { inSlices, type Rest } from './slices.js';

/** Records fetched at once: the browser makes values of them all in one go. */
const pageOf = 100;

/** The world as the device's database has it, and how many records lie there. */
export async function readWorld(
  db: Db,
  leftOut: ReadonlySet<string>,
  rest: Rest,
): Promise<{ readonly world: World; readonly held: number }> {
  const records: LogRecord[] = [];
  let held = 0;
  for (let last = ''; ; ) {
    const rows = await db.records.where('id').above(last).limit(pageOf).toArray();
    held += rows.length;
    await inSlices(readable(rows, leftOut, records), rest);
    const end = rows.at(-1)?.id;
    if (end === undefined || rows.length < pageOf) break;
    last = end;
  }
  const world = await inSlices(buildWorld.inParts(records, await unreadIn(db)), rest);
  const chips = withChips(noChips, await db.chips.toArray());
  const away = awayOf(((await readMeta(db, 'away')) ?? []) as readonly Away[]);
  return { world: { ...world, chips, away }, held };
}

/** Puts those that this program can read, and that are part of what is worked out here, at the end of `records`. */
function* readable(rows: readonly LogRecord[], leftOut: ReadonlySet<string>, records: LogRecord[]): InParts<void> {
  for (const row of rows) {
    if (leftOut.has(row.subject)) continue;
    const parsed = parseRecord(row);
    if (parsed.ok) records.push(parsed.value);
    yield;
  }
}
