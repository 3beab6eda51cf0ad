import { z } from 'zod';

/** SHA-256 of the bytes of a picture, 64 hex digits: its name wherever it lies. */
export const BlobId = z
  .string()
  .regex(/^[0-9a-f]{64}$/, '64 hex digits')
  .brand<'BlobId'>();
export type BlobId = z.infer<typeof BlobId>;

/** The photo of an animal, as two pictures that are kept beside the log; the record has their names only. */
export const Photo = z.object({
  /** Where it is compared with the animal in the hands. */
  full: BlobId,
  /** In lists, and on a phone without the network. */
  small: BlobId,
});
export type Photo = z.infer<typeof Photo>;

/** Most pixels on the long side of the two pictures. Nothing is ever made larger than it came. Our choice, no source. */
export const longSide_px = { full: 1600, small: 320 } as const satisfies Record<keyof Photo, number>;

/** Width and height of a picture brought inside a long side, in whole pixels, 1 at least. */
export function fitted(width: number, height: number, side_px: number): { width: number; height: number } {
  const scale = Math.min(1, side_px / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}
