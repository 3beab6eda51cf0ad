import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { BlobId, fitted, longSide_px, type Photo } from '../../core/animal/photo.js';
import { plainJpeg } from '../../core/animal/plain-jpeg.js';

/** One of the two pictures of a photo, with its name. */
export interface Made {
  readonly id: BlobId;
  readonly bytes: Uint8Array<ArrayBuffer>;
}
export type MadePhoto = Readonly<Record<keyof Photo, Made>>;

/** Of 1; as on the server. Our choice, no source. */
const quality = 0.82;

/** A picture that is plain, by its name; null when the bytes are no JPEG. */
export function named(jpeg: Uint8Array): Made | null {
  const bytes = plainJpeg(jpeg);
  return bytes === null ? null : { id: BlobId.parse(bytesToHex(sha256(bytes))), bytes };
}

/**
 * The two pictures of a photo, made on the device: drawn anew from its pixels, upright, at most 1,600 and 320 px on the
 * long side, and plain. Null when this browser cannot read the file.
 */
export async function makePhoto(file: Blob): Promise<MadePhoto | null> {
  try {
    // Upright as its EXIF says: the standard's default, said because the picture is worth nothing without it.
    const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
    try {
      const full = await drawn(picture, longSide_px.full);
      const small = full === null ? null : await drawn(picture, longSide_px.small);
      return full === null || small === null ? null : { full, small };
    } finally {
      picture.close();
    }
  } catch {
    return null;
  }
}

async function drawn(picture: ImageBitmap, side_px: number): Promise<Made | null> {
  const canvas = document.createElement('canvas');
  Object.assign(canvas, fitted(picture.width, picture.height, side_px));
  const context = canvas.getContext('2d');
  if (context === null) return null;
  context.imageSmoothingQuality = 'high';
  // What is clear in the picture would be black in a JPEG.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const jpeg = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
  return jpeg === null ? null : named(new Uint8Array(await jpeg.arrayBuffer()));
}
