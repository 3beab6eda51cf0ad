import { type BlobId, Photo } from '../core/animal/photo.js';
import type { Blobs } from '../log/blobs.js';
import type { LogStore } from '../log/store.js';
import { pages } from './verify.js';

export interface PictureReport {
  /** Every picture that a record names is here and is what its name says. */
  readonly whole: boolean;
  /** How many lie here. */
  readonly pictures: number;
  /** Named by a record and not here: still on the device that took it, or lost. */
  readonly missing: readonly BlobId[];
  /** Here, and not what their names say. */
  readonly damaged: readonly BlobId[];
  /** Here, and named by no record: of a form that was not sent, or of a record that is still on its way. Nothing wrong. */
  readonly unreferenced: readonly BlobId[];
}

/** Hold the pictures beside a log against the names in its records. Changes nothing; one picture in memory at a time. */
export async function verifyPictures(store: LogStore, blobs: Blobs): Promise<PictureReport> {
  // The names first: what comes in meanwhile is then not called missing, but unreferenced at worst.
  const named = await picturesNamed(store);
  const here = await blobs.list();
  const damaged: BlobId[] = [];
  for (const id of here) if ((await blobs.get(id)).is === 'damaged') damaged.push(id);
  const held = new Set(here);
  const missing = [...named].filter((id) => !held.has(id)).sort();
  const unreferenced = here.filter((id) => !named.has(id));
  const whole = missing.length === 0 && damaged.length === 0;
  return { whole, pictures: here.length, missing, damaged, unreferenced };
}

/** Names of all pictures in the records as they were written down, also in those that were corrected since. */
export async function picturesNamed(store: LogStore): Promise<ReadonlySet<BlobId>> {
  const named = new Set<BlobId>();
  for await (const records of pages(store)) {
    for (const { body } of records) {
      const photo = Photo.safeParse((body as { marks?: { photo?: unknown } } | null)?.marks?.photo);
      if (photo.success) for (const id of [photo.data.full, photo.data.small]) named.add(id);
    }
  }
  return named;
}
