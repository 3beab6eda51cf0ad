import type { BlobId } from '../core/animal/photo.js';

/**
 * The port to whatever keeps the pictures beside one shelter's log. test/contract/blobs.ts is the measure.
 *
 * What every keeper owes:
 * - A blob is its bytes; its name is their SHA-256. It is never changed. Putting it again changes nothing, unless what
 *   lies there is damaged: then it is whole again.
 * - When a promise of `put` resolves, the bytes survive loss of power. Broken off before, nothing is half there.
 * - What does not hash to its name is never given out.
 * - Nothing is removed but by `remove`, and nothing calls that by itself.
 * - Trouble outside the caller's reach (disk full) rejects with a `StoreTrouble`.
 */
export interface Blobs {
  put(bytes: Uint8Array): Promise<BlobId>;
  get(id: BlobId): Promise<FoundBlob>;
  /** Whether something lies under this name, whole or not. */
  has(id: BlobId): Promise<boolean>;
  /** Names of all that lies here, in order. */
  list(): Promise<readonly BlobId[]>;
  /** Take blobs away that no record names any more; a person decides it. What is not there is passed over. */
  remove(ids: readonly BlobId[]): Promise<void>;
}

export type FoundBlob =
  | { readonly is: 'whole'; readonly bytes: Uint8Array }
  /** `damaged`: something lies there that does not hash to its name. */
  | { readonly is: 'missing' | 'damaged' };
