import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { said } from '../../core/said.js';
import { arrivalAt } from '../../log/arrival.js';
import { StoreTrouble } from '../../log/store.js';
import { whyNoDocuments } from '../../log/views/shelter.js';
import { clockTold } from '../../server/context.js';
import { filesIn } from '../../server/copies/place.js';
import { newestCopy } from '../../server/copies/rule.js';
import { daysLeft, renewedWithin_days } from '../../server/lan/authority.js';
import { keysFolder, openKeys } from '../../store/private/keys.js';
import { openPrivateSide, privateFile } from '../../store/private/sqlite.js';
import { networkOf } from '../../store/sqlite/folder.js';
import { openStore, type SqliteStore, storeFile } from '../../store/sqlite/open.js';
import { whyNotWritable } from '../../store/sqlite/writable.js';
import { headFaults } from '../../store/tree-heads.js';
import { worldInCare } from '../data-folder.js';
import { attention, type Finding, well, wrong } from './finding.js';
import { daysSince, lookAtDisk, lookAtRights } from './machine.js';

/** Days after which the newest copy is old, whatever time between two was asked for. Ours. */
const oldCopy_days = 2;

/** Days after which a certificate that should have been renewed has not been. Ours. */
const late_days = 3;

/** A folder of records: whether it can be kept in, and whether what is in it is in order. */
export async function lookAtRecords(folder: string, now: string): Promise<readonly Finding[]> {
  const file = join(folder, storeFile);
  if (!existsSync(file)) return [attention(said('cli.doctor.no-records', { folder }))];
  const found: Finding[] = [lookAtDisk(folder), lookAtRights(folder)];
  const share = networkOf(folder);
  if (share !== null) found.push(wrong(said('server.store.network-share', { folder, type: share })));
  const not = whyNotWritable(file);
  if (not !== null) found.push(wrong(said('cli.doctor.not-writable', { folder, full: not === 'full' ? 'yes' : 'no' })));
  const opened = await openStore(folder);
  if (!opened.ok) return [...found, wrong(opened.why)];
  const inside: Finding[] = [];
  try {
    await lookInside(opened.value, folder, now, inside);
  } catch (error) {
    if (!(error instanceof StoreTrouble)) throw error;
    inside.push(wrong(error.why));
  } finally {
    await opened.value.close();
  }
  return [...found, ...inside];
}

/** Finds one after the other, so that what breaks off leaves what was found before it. */
async function lookInside(store: SqliteStore, folder: string, now: string, found: Finding[]): Promise<void> {
  const faults = await store.faults();
  for (const detail of faults) found.push(wrong(said('cli.doctor.file-damaged', { detail })));
  const unread = await store.unreadable();
  if (unread > 0) found.push(wrong(said('cli.doctor.unreadable', { count: unread })));
  const { seq, receivedAt } = await store.head();
  for (const what of clockTold(arrivalAt(now, receivedAt))) found.push(wrong(what));
  const { wrong: heads } = await headFaults(store, folder);
  for (const { size, at } of heads) found.push(wrong(said('cli.verify.head-wrong', { size, at })));
  if (found.length === 0) found.push(well(said('cli.doctor.records', { records: seq })));
  const { shelter } = await worldInCare(store);
  if (shelter.id === null) found.push(attention(said('cli.doctor.no-shelter')));
  else {
    const none = whyNoDocuments(shelter);
    found.push(none === null ? well(said('cli.doctor.documents')) : attention(none));
  }
}

/** Names and contacts of people, which lie beside the records. */
export async function lookAtPeople(folder: string): Promise<readonly Finding[]> {
  if (!existsSync(join(folder, privateFile))) return [];
  const side = openPrivateSide(folder);
  if (!side.ok) return [wrong(side.why)];
  const faults = await side.value.faults();
  await side.value.close();
  return faults.length === 0
    ? [well(said('cli.doctor.people'))]
    : faults.map((detail) => wrong(said('cli.verify.people-fault', { detail })));
}

/** The authority and the certificate of `start --lan`; none are needed without it. */
export function lookAtKeys(folder: string, now: string): readonly Finding[] {
  if (!existsSync(join(folder, keysFolder))) return [];
  const keys = openKeys(folder);
  if (!keys.ok) return [wrong(keys.why)];
  const key = keys.value.read('server.key');
  if (!key.ok) return [wrong(key.why)];
  const certificate = keys.value.read('server.crt');
  if (!certificate.ok) return [wrong(certificate.why)];
  if (certificate.value === null) return [];
  const days = daysLeft(certificate.value, now);
  // The server renews it while it runs; one that is nearly over has not run, or could not write.
  return [
    days < 0
      ? wrong(said('cli.doctor.certificate-ended'))
      : days < renewedWithin_days - late_days
        ? attention(said('cli.doctor.certificate-over', { days }))
        : well(said('cli.doctor.certificate', { days })),
  ];
}

/** The second place. Without one a drowned computer takes everything with it. */
export function lookAtCopies(place: string | null, now: string): readonly Finding[] {
  if (place === null) return [attention(said('cli.doctor.no-copies'))];
  const files = filesIn(place);
  if (!files.ok) return [wrong(files.why)];
  const last = newestCopy(files.value, now);
  if (last === null) return [wrong(said('cli.doctor.copies-none', { folder: place }))];
  const days = daysSince(last, now);
  return [
    days >= oldCopy_days
      ? wrong(said('cli.doctor.copy-old', { at: { instant: last }, days }))
      : well(said('cli.doctor.copy', { at: { instant: last } })),
    lookAtDisk(place),
  ];
}
