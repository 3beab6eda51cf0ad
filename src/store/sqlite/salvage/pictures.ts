import type { BlobId } from '../../../core/animal/photo.js';
import type { Blobs } from '../../../log/blobs.js';

export interface SavedPictures {
  readonly saved: number;
  /** Not what their names say any more, or not to be read: left behind. */
  readonly damaged: readonly BlobId[];
}

/** Take every picture along that is still what its name says. */
export async function savePictures(from: Blobs, to: Blobs): Promise<SavedPictures> {
  const damaged: BlobId[] = [];
  let saved = 0;
  for (const id of await from.list()) {
    const found = await from.get(id).catch(() => ({ is: 'damaged' as const }));
    if (found.is === 'whole') {
      await to.put(found.bytes);
      saved += 1;
    } else damaged.push(id);
  }
  return { saved, damaged };
}
