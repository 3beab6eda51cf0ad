import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { BlobId } from '../../src/core/animal/photo.js';
import type { Blobs } from '../../src/log/blobs.js';

/** One keeper of blobs, made for one test. */
export interface OpenedBlobs {
  readonly blobs: Blobs;
  /** Another opening of the same blobs, as another program would; null when this kind lives in one process. */
  readonly another: (() => Blobs) | null;
  /** Changes what lies under a name behind the keeper's back; null where nobody can. */
  readonly spoil: ((id: BlobId, bytes: Uint8Array) => void) | null;
  readonly dispose: () => void;
}

const nameOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const never = BlobId.parse('0'.repeat(64));

/** What every keeper of blobs owes (src/log/blobs.ts), as tests. Run for each kind by blobs.test.ts. */
export function blobsContract(kind: string, make: () => OpenedBlobs): void {
  describe(`blobs in ${kind}`, () => {
    let made: OpenedBlobs[] = [];
    const open = (): OpenedBlobs => {
      const opened = make();
      made.push(opened);
      return opened;
    };
    afterEach(() => {
      for (const opened of made) opened.dispose();
      made = [];
    });

    it('starts empty', async () => {
      const { blobs } = open();
      expect(await blobs.list()).toEqual([]);
      expect(await blobs.has(never)).toBe(false);
      expect(await blobs.get(never)).toEqual({ is: 'missing' });
    });

    it('gives any bytes back under their SHA-256, and holds each once (Verifies: LOG-R90)', async () => {
      await fc.assert(
        fc.asyncProperty(fc.array(fc.uint8Array({ maxLength: 2000 }), { maxLength: 6 }), async (all) => {
          const { blobs } = open();
          const names = [...new Set(all.map(nameOf))].sort();
          for (const bytes of [...all, ...all]) expect(await blobs.put(bytes)).toBe(nameOf(bytes));
          expect(await blobs.list()).toEqual(names);
          for (const bytes of all) {
            const found = await blobs.get(BlobId.parse(nameOf(bytes)));
            expect(found.is === 'whole' ? Buffer.from(found.bytes) : found).toEqual(Buffer.from(bytes));
          }
        }),
        { numRuns: 20 },
      );
    });

    it('keeps what it was given, whatever the caller does with the bytes afterwards', async () => {
      const { blobs } = open();
      const bytes = Uint8Array.of(1, 2, 3);
      const id = await blobs.put(bytes);
      bytes[0] = 9;
      const found = await blobs.get(id);
      if (found.is === 'whole') found.bytes[1] = 9;
      expect(await blobs.get(id)).toMatchObject({ is: 'whole' });
    });

    it('takes many at once, the same ones too', async () => {
      const { blobs, another } = open();
      const other = another === null ? blobs : another();
      const all = Array.from({ length: 20 }, (_, index) => Uint8Array.of(index % 5, 7));
      const ids = await Promise.all(all.map((bytes, index) => (index % 2 === 0 ? blobs : other).put(bytes)));
      expect(new Set(ids).size).toBe(5);
      expect(await blobs.list()).toEqual([...new Set(ids)].sort());
    });

    it('removes only what it is told to, and passes over what is not there', async () => {
      const { blobs } = open();
      const ids = [await blobs.put(Uint8Array.of(1)), await blobs.put(Uint8Array.of(2))];
      await blobs.remove([ids[0] as BlobId, never]);
      expect(await blobs.list()).toEqual([ids[1]]);
      expect(await blobs.get(ids[0] as BlobId)).toEqual({ is: 'missing' });
    });

    it('never gives out what does not hash to its name, and is whole again when it is put again (Verifies: LOG-R90)', async () => {
      const { blobs, spoil } = open();
      if (spoil === null) return expect(kind).toBe('memory');
      const bytes = Uint8Array.of(5, 6, 7, 8);
      const id = await blobs.put(bytes);
      for (const bad of [Uint8Array.of(5, 6, 7), Uint8Array.of(5, 6, 7, 9), Uint8Array.of()]) {
        spoil(id, bad);
        expect(await blobs.get(id)).toEqual({ is: 'damaged' });
        expect(await blobs.has(id)).toBe(true);
        expect(await blobs.put(bytes)).toBe(id);
        expect(await blobs.get(id)).toMatchObject({ is: 'whole' });
      }
    });
  });
}
