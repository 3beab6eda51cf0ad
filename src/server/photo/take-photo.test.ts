import sharp, { type Sharp } from 'sharp';
import { describe, expect, it } from 'vitest';
import { isPlainJpeg, plainJpeg } from '../../core/animal/plain-jpeg.js';
import { blobIdOf } from '../../store/blobs/memory.js';
import { isRefusal, type Refusal } from '../refusal.js';
import { type Pictures, takePhoto, whyNotKept } from './take-photo.js';

/** Left half red, right half blue: which way it is turned can be seen from two points. */
async function halves(width: number, height: number): Promise<Sharp> {
  const half = { create: { width: width / 2, height, channels: 3 as const, background: '#0000ff' } };
  return sharp({ create: { width, height, channels: 3, background: '#ff0000' } }).composite([
    {
      input: await sharp(half).raw().toBuffer(),
      raw: { width: width / 2, height, channels: 3 },
      left: width / 2,
      top: 0,
    },
  ]);
}

const place = {
  IFD0: { Make: 'Maker of nothing', Model: 'Invented 1' },
  IFD3: { GPSLatitude: '51/1 30/1 0/1', GPSLatitudeRef: 'N' },
};

const fromCamera = async (width: number, height: number, orientation: number): Promise<Buffer> =>
  (await halves(width, height)).withExif(place).withMetadata({ orientation }).jpeg().toBuffer();

async function taken(bytes: Uint8Array): Promise<Pictures> {
  const answer = await takePhoto(bytes);
  if (isRefusal(answer)) throw new Error(JSON.stringify(answer));
  return answer;
}

async function colourAt(picture: Uint8Array, x: number, y: number): Promise<'red' | 'blue' | 'other'> {
  const { data, info } = await sharp(picture).raw().toBuffer({ resolveWithObject: true });
  const at = (Math.round(y * (info.height - 1)) * info.width + Math.round(x * (info.width - 1))) * info.channels;
  const [red = 0, , blue = 0] = data.subarray(at, at + 3);
  return red > 200 && blue < 60 ? 'red' : blue > 200 && red < 60 ? 'blue' : 'other';
}

const sidesOf = async (picture: Uint8Array): Promise<number[]> => {
  const { width, height } = await sharp(picture).metadata();
  return [width, height];
};

describe('a photo as it comes from a camera', () => {
  it('is turned upright, made small twice and tells no place and no device (Verifies: LOG-R91)', async () => {
    // 6: the top of the cat is at the right-hand side of the file; turned, red is above and blue below.
    const photo = await fromCamera(4000, 3000, 6);
    expect(await sharp(photo).metadata()).toMatchObject({ orientation: 6, exif: expect.anything() });
    expect(photo.includes('Maker of nothing')).toBe(true);
    const { full, small } = await taken(photo);
    expect(await sidesOf(full)).toEqual([1200, 1600]);
    expect(await sidesOf(small)).toEqual([240, 320]);
    for (const picture of [full, small]) {
      expect(await colourAt(picture, 0.5, 0.05)).toBe('red');
      expect(await colourAt(picture, 0.5, 0.95)).toBe('blue');
      const { exif, xmp, iptc, icc, orientation } = await sharp(picture).metadata();
      expect([exif, xmp, iptc, icc, orientation]).toEqual([undefined, undefined, undefined, undefined, undefined]);
      expect(Buffer.from(picture).includes('Maker')).toBe(false);
      expect(isPlainJpeg(picture)).toBe(true);
    }
  });

  it('is never enlarged, and gives the same bytes each time (Verifies: LOG-R91)', async () => {
    const photo = await (await halves(200, 100)).png().toBuffer();
    const [one, again] = [await taken(photo), await taken(photo)];
    expect(await sidesOf(one.full)).toEqual([200, 100]);
    expect(await sidesOf(one.small)).toEqual([200, 100]);
    expect(blobIdOf(again.full)).toBe(blobIdOf(one.full));
    expect(blobIdOf(again.small)).toBe(blobIdOf(one.small));
  });

  it('is refused with a sentence that says what to do (Verifies: LOG-R92)', async () => {
    const whole = await (await halves(400, 300)).jpeg().toBuffer();
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(64)]);
    const bomb = await sharp({ create: { width: 12_000, height: 12_000, channels: 3, background: '#fff' } })
      .png()
      .toBuffer();
    // Small on the wire, 432 MB unpacked.
    expect(bomb.length).toBeLessThan(2_000_000);
    const why: [Uint8Array, string][] = [
      [Buffer.from('not a picture at all'), 'server.photo.no-picture'],
      [Buffer.alloc(0), 'server.photo.no-picture'],
      [Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'), 'server.photo.other-form'],
      [await (await halves(40, 30)).gif().toBuffer(), 'server.photo.other-form'],
      [heic, 'server.photo.heic'],
      [whole.subarray(0, whole.length - 200), 'server.photo.broken'],
      [bomb, 'server.problem.photo-too-large'],
    ];
    for (const [bytes, say] of why) expect((await takePhoto(bytes)) as Refusal, say).toMatchObject({ why: { say } });
  });
});

describe('a picture that a device has made', () => {
  it('is kept as it is when it is plain, small enough and whole, and else not at all (Verifies: LOG-R93)', async () => {
    const { full } = await taken(await fromCamera(3000, 2000, 1));
    expect(await whyNotKept(full)).toBeNull();
    const told = await fromCamera(800, 600, 1);
    const plain = plainJpeg(told);
    if (plain === null) throw new Error('no JPEG');
    expect(await whyNotKept(plain)).toBeNull();
    const more = Buffer.concat([full, Buffer.from('and the place behind its end')]);
    const large = plainJpeg(await (await halves(1602, 400)).jpeg().toBuffer());
    const cut = Buffer.concat([full.subarray(0, full.length - 900), Buffer.from([0xff, 0xd9])]);
    expect(isPlainJpeg(cut)).toBe(true);
    const refused: [Uint8Array, string][] = [
      [told, 'photo-not-plain'],
      [more, 'photo-not-plain'],
      [large ?? told, 'photo-not-plain'],
      [await sharp(full).png().toBuffer(), 'photo-not-plain'],
      [cut, 'photo-unreadable'],
    ];
    for (const [bytes, code] of refused) expect(await whyNotKept(bytes)).toMatchObject({ refused: code });
  });
});
