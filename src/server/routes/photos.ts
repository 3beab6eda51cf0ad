import type { BlobId, Photo } from '../../core/animal/photo.js';
import { blobIdOf } from '../../store/blobs/memory.js';
import type { Context } from '../context.js';
import { takePhoto, whyNotKept } from '../photo/take-photo.js';
import { isRefusal, type Refusal, refuse } from '../refusal.js';

/** A photograph from a camera: the names of the two pictures that it became. */
export async function takePhotoIn({ blobs }: Context, bytes: Uint8Array): Promise<Photo | Refusal> {
  const made = await takePhoto(bytes);
  if (isRefusal(made)) return made;
  return { full: await blobs.put(made.full), small: await blobs.put(made.small) };
}

/** A picture that a record names already. Whether one does is not asked: record and picture come in any order. */
export async function keepPicture(
  { blobs }: Context,
  id: BlobId,
  bytes: Uint8Array,
): Promise<{ readonly id: BlobId } | Refusal> {
  if (blobIdOf(bytes) !== id) return refuse('photo-not-plain');
  const why = await whyNotKept(bytes);
  return why ?? { id: await blobs.put(bytes) };
}

export async function picture({ blobs }: Context, id: BlobId): Promise<Buffer | Refusal> {
  const found = await blobs.get(id);
  if (found.is === 'whole') return Buffer.from(found.bytes);
  return refuse(found.is === 'missing' ? 'photo-missing' : 'photo-damaged');
}
