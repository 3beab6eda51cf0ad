import sharp from 'sharp';
import type { Photo } from '../../core/animal/photo.js';
import { drawings } from '../../demo/drawn.js';
import type { Blobs } from '../../log/blobs.js';
import { isRefusal } from '../refusal.js';
import { takePhoto } from './take-photo.js';

/** Take the drawn pictures of the invented shelter in, as if a camera had sent them: by key of the cast. */
export async function keepDemoPhotos(blobs: Blobs): Promise<Readonly<Record<string, Photo>>> {
  const photos: Record<string, Photo> = {};
  for (const { key, side_px, pixels } of drawings()) {
    const raw = { width: side_px, height: side_px, channels: 3 as const };
    const made = await takePhoto(await sharp(pixels, { raw }).png().toBuffer());
    if (isRefusal(made)) throw new Error(`the drawing of ${key} is no picture`);
    photos[key] = { full: await blobs.put(made.full), small: await blobs.put(made.small) };
  }
  return photos;
}
