import type { BlobId } from '../../core/animal/photo.js';
import type { Blobs } from '../../log/blobs.js';

export interface Copied {
  readonly copied: number;
  /** Left behind: they are not what their names say. */
  readonly damaged: readonly BlobId[];
}

/** Take all blobs that are whole along, one in memory at a time. */
export async function copyBlobs(from: Blobs, to: Blobs): Promise<Copied> {
  const damaged: BlobId[] = [];
  let copied = 0;
  for (const id of await from.list()) {
    const found = await from.get(id);
    if (found.is === 'whole') {
      await to.put(found.bytes);
      copied += 1;
    } else if (found.is === 'damaged') damaged.push(id);
  }
  return { copied, damaged };
}
