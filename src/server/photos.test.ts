import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { code, noon, shelter, value } from '../../test/support/app.js';
import { limits } from '../api/wire.js';
import { BlobId } from '../core/animal/photo.js';
import { AnimalId } from '../core/ids.js';
import { describeAnimal } from '../log/commands/animal.js';
import { memoryBlobs } from '../store/blobs/memory.js';

const picture = async (width: number, height: number): Promise<Uint8Array<ArrayBuffer>> =>
  Uint8Array.from(
    await sharp({ create: { width, height, channels: 3, background: '#806040' } })
      .withExif({ IFD0: { Make: 'Invented' } })
      .jpeg()
      .toBuffer(),
  );
const none = BlobId.parse('0'.repeat(64));

describe('photos over the wire', () => {
  it('go in from a camera and come out as two plain pictures that may be kept for ever (Verifies: LOG-R91)', async () => {
    const { as, app, asking } = await shelter();
    const { full, small } = value(await as('ines').takePhoto(await picture(2000, 1000)));
    for (const [id, width] of [
      [full, 1600],
      [small, 320],
    ] as const) {
      const bytes = value(await as('sol').picture(id));
      const about = await sharp(bytes).metadata();
      expect([about.width, about.exif]).toEqual([width, undefined]);
      // What came out is what a device may put in, elsewhere, under the same name.
      expect(value(await as('sol').keepPicture(id, bytes))).toEqual({ id });
    }
    const headers = asking('ines');
    const answer = await app.inject({ url: `/api/photos/${full}`, headers });
    expect(answer.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'cache-control': 'private, max-age=31536000, immutable',
      'x-content-type-options': 'nosniff',
    });
  });

  it('are named by their bytes, and refused in a sentence otherwise (Verifies: LOG-R93)', async () => {
    const { as, app, asking } = await shelter();
    const [camera, other] = [await picture(400, 300), await picture(300, 300)];
    const { full } = value(await as('ines').takePhoto(camera));
    const plain = value(await as('ines').picture(full));
    expect(code(await as('ines').keepPicture(none, plain))).toBe('photo-not-plain');
    expect(code(await as('ines').keepPicture(full, other))).toBe('photo-not-plain');
    expect(code(await as('ines').picture(none))).toBe('photo-missing');
    expect(code(await as(null).picture(full))).toBe('person-missing');
    expect(code(await as(null).takePhoto(camera))).toBe('person-missing');
    expect(code(await as('ines').takePhoto(new Uint8Array(limits.bodyBytes + 1)))).toBe('photo-too-large');
    expect(code(await as('ines').takePhoto(new Uint8Array()))).toBe('photo-unreadable');
    const headers = asking('ines');
    for (const id of ['ABC', '%2e%2e%2frecords', 'F'.repeat(64)])
      expect((await app.inject({ url: `/api/photos/${id}`, headers })).json()).toMatchObject({
        code: 'request-malformed',
      });
    // What they are called is of no weight, and records are still taken as JSON only.
    const asText = {
      method: 'POST',
      url: '/api/photos',
      headers: { ...headers, 'content-type': 'text/plain' },
    } as const;
    expect((await app.inject({ ...asText, payload: Buffer.from(camera) })).json()).toHaveProperty('full', full);
    const records = { ...asText, url: '/api/records', payload: Buffer.from(camera) } as const;
    expect((await app.inject(records)).json()).toMatchObject({ code: 'not-json' });
  });

  it('a record that names a picture is taken without it, and a changed word writes no picture again (Verifies: LOG-R94)', async () => {
    const blobs = memoryBlobs();
    const { as, log, store } = await shelter(1, 'UTC', { blobs });
    const photo = { full: none, small: none };
    const kit = AnimalId.parse('kit-1');
    const marks = { collar: 'teal', coat: 'tabby', mark: '', photo };
    const records = log.add(
      [describeAnimal(kit, { marks }, noon), describeAnimal(kit, { marks: { ...marks, collar: 'red' } }, noon)].flat(),
      'sol',
    );
    const { outcomes } = value(await as('sol').append({ records }));
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(['stored', 'stored']);
    expect(await blobs.list()).toEqual([]);
    for (const { body } of (await store.read()).slice(-2)) expect(JSON.stringify(body).length).toBeLessThan(300);
    const url = 'data:image/jpeg;base64,AAAA';
    const old = { ...records[0], id: 'rec-old', body: { marks: { ...marks, photo: url } } };
    const [answer] = value(await as('sol').append({ records: [old] })).outcomes;
    expect(answer).toMatchObject({ outcome: 'refused', problem: { code: 'record-malformed' } });
  });
});
