import { createHash } from 'node:crypto';
import { BlobId } from '../../core/animal/photo.js';
import type { Blobs } from '../../log/blobs.js';

export const blobIdOf = (bytes: Uint8Array): BlobId => BlobId.parse(createHash('sha256').update(bytes).digest('hex'));

/** Blobs in memory, gone with the process: for tests and for trying things out. Passes the contract suite. */
export function memoryBlobs(): Blobs {
  const held = new Map<BlobId, Uint8Array>();
  return {
    put: async (bytes) => {
      const id = blobIdOf(bytes);
      held.set(id, bytes.slice());
      return id;
    },
    get: async (id) => {
      const bytes = held.get(id);
      return bytes === undefined ? { is: 'missing' } : { is: 'whole', bytes: bytes.slice() };
    },
    has: async (id) => held.has(id),
    list: async () => [...held.keys()].sort(),
    remove: async (ids) => {
      for (const id of ids) held.delete(id);
    },
  };
}
