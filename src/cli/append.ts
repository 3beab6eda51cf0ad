import { hostname } from 'node:os';
import { v7 } from 'uuid';
import { DeviceId, type PersonId } from '../core/ids.js';
import { said } from '../core/said.js';
import { type Draft, type LogRecord, stamp } from '../log/record.js';
import type { World } from '../log/views/world.js';
import type { SqliteStore } from '../store/sqlite/open.js';
import { type Exit, failed } from './exit.js';

/** The command line of one computer counts as one device. */
export const thisDevice = (): DeviceId => DeviceId.parse(`command-line-${hostname()}`.slice(0, 80));

/** The number that this device's next record takes. */
export function nextSeqOf(world: World, device: DeviceId): number {
  let last = 0;
  for (const records of world.bySubject.values()) {
    for (const record of records) if (record.device === device) last = Math.max(last, record.deviceSeq);
  }
  return last + 1;
}

/** Put drafts on record as one batch, all or none. */
export async function append(
  drafts: readonly Draft[],
  world: World,
  store: SqliteStore,
  by: PersonId,
  now: string,
): Promise<readonly LogRecord[] | Exit> {
  const { id, zone } = world.shelter;
  if (id === null) return failed(said('cli.no-shelter', { folder: store.file }));
  const device = thisDevice();
  const context = { shelter: id, zone, by, device, nextSeq: nextSeqOf(world, device), now, newId: v7 };
  const records = stamp(drafts, context);
  await store.append(records, now);
  return records;
}
