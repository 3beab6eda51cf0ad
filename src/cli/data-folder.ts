import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { LotId } from '../core/ids.js';
import { type Outcome, ok, said } from '../core/said.js';
import type { Blobs } from '../log/blobs.js';
import { namesGiven, type PrivatePerson } from '../log/private-side.js';
import { usedAway } from '../log/stock/lots.js';
import { StoreTrouble } from '../log/store.js';
import type { World } from '../log/views/world.js';
import { blobsFolder, folderBlobs } from '../store/blobs/folder.js';
import { openPrivateSide, privateFile } from '../store/private/sqlite.js';
import { emptyProjection, project } from '../store/projection.js';
import { openStore, type SqliteStore, storeFile } from '../store/sqlite/open.js';
import { animalsOf, pages } from '../store/verify.js';
import { setNames, setZone } from '../words/say.js';
import type { Given } from './command.js';
import { type Exit, failed } from './exit.js';
import { complain } from './output.js';
import { projectFolder } from './project-folder.js';

export const dataFolder = (given: Given): string => resolve(given.text('data') ?? join(projectFolder, 'data'));

/** The pictures beside the records. */
export const blobsBeside = (given: Given): Blobs => folderBlobs(join(dataFolder(given), blobsFolder));

export const holdsRecords = (folder: string): boolean => existsSync(join(folder, storeFile));

/** Open the records that are there, do something with them, and close them whatever happens. Makes no folder. */
export async function withStore(given: Given, act: (store: SqliteStore) => Promise<Exit>): Promise<Exit> {
  const folder = dataFolder(given);
  if (!holdsRecords(folder)) return failed(said('cli.no-records', { folder }));
  const opened = await openStore(folder);
  if (!opened.ok) return failed(opened.why);
  try {
    return await act(opened.value);
  } catch (error) {
    if (error instanceof StoreTrouble) return failed(error.why);
    throw error;
  } finally {
    await opened.value.close();
  }
}

/** Everything the records say. From here on instants are told in the shelter's zone. */
export async function worldOf(store: SqliteStore): Promise<World> {
  let projection = emptyProjection;
  for await (const page of pages(store, 0, undefined, true)) projection = project(projection, page);
  setZone(projection.world.shelter.zone);
  return projection.world;
}

/**
 * The shelter and the animals in care: all that is planned from and listed, whatever else was ever written. What those
 * that have left took from the lots is known from the lots' rows.
 */
export async function worldInCare(store: SqliteStore): Promise<World> {
  await store.unreadable();
  const records = [...(await store.read({ about: 'shelter', trusted: true }))];
  for await (const id of animalsOf(store, true))
    records.push(...(await store.read({ subject: `animal:${id}`, trusted: true })));
  const { world } = project(emptyProjection, records);
  const lots = (await store.rows('lots')).map((row) => ({ lot: LotId.parse(row.lot), left: row.pieces_left }));
  setZone(world.shelter.zone);
  return { ...world, away: usedAway(world, lots) };
}

/** Said before anything is listed that may lack what could not be read. */
export function complainOfUnread({ unread }: World): void {
  if (unread.length > 0) complain(said('cli.unreadable', { count: unread.length }));
}

/** Everybody of the private side beside the records. From here on people are called by these names. */
export async function peopleIn(folder: string): Promise<Outcome<readonly PrivatePerson[]>> {
  // Looking makes nothing: records without a private side are people without names.
  if (!existsSync(join(folder, privateFile))) return ok([]);
  const side = openPrivateSide(folder);
  if (!side.ok) return side;
  const people = await side.value.people();
  await side.value.close();
  setNames(namesGiven(people));
  return ok(people);
}

/** As `withStore`, with the records read (`read`); says so when no shelter has been set up in them. */
export function withWorld(
  given: Given,
  act: (world: World, store: SqliteStore, people: readonly PrivatePerson[]) => Promise<Exit>,
  read: (store: SqliteStore) => Promise<World> = worldOf,
): Promise<Exit> {
  return withStore(given, async (store) => {
    const people = await peopleIn(dataFolder(given));
    if (!people.ok) return failed(people.why);
    const world = await read(store);
    if (world.shelter.id === null) {
      const { seq } = await store.head();
      return failed(
        seq > 0 ? said('server.problem.records-damaged') : said('cli.no-shelter', { folder: dataFolder(given) }),
      );
    }
    return act(world, store, people.value);
  });
}
