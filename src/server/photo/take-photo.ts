import sharp, { type Sharp } from 'sharp';
import { limits } from '../../api/wire.js';
import { longSide_px, type Photo } from '../../core/animal/photo.js';
import { isPlainJpeg, plainJpeg } from '../../core/animal/plain-jpeg.js';
import { said } from '../../core/said.js';
import { type Refusal, refuse, refuseBecause } from '../refusal.js';

// Only what cameras and browsers write: a reader that is not asked for cannot be attacked, and drawings that fetch
// other files are no photographs.
sharp.block({ operation: ['VipsForeignLoad'] });
sharp.unblock({
  operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
});
// One picture at a time and nothing remembered of it: a round of uploads must not eat the memory of a small computer.
sharp.cache(false);
sharp.concurrency(1);

/** Of 100; what JPEG encoders call good. Our choice, no source. */
const quality = 82;
/** Longest that one picture may take to be worked out. */
const limit_s = 30;

export type Pictures = Readonly<Record<keyof Photo, Uint8Array>>;

const reading = (bytes: Uint8Array): Sharp =>
  sharp(bytes, { limitInputPixels: limits.photoPixels, failOn: 'warning' }).timeout({ seconds: limit_s });

/**
 * A photograph as it came from a camera, made into the two pictures that are kept: upright by its EXIF orientation,
 * 1,600 and 320 px on the long side and never enlarged, in sRGB, without any word on place, time and device. The same
 * bytes give the same pictures in one version of the packages. Or the sentence that says why not and what to do.
 */
export async function takePhoto(bytes: Uint8Array): Promise<Pictures | Refusal> {
  return await inTurn(async () => {
    const bad = await whyUnread(bytes);
    if (bad !== null) return bad;
    try {
      return { full: await made(bytes, longSide_px.full), small: await made(bytes, longSide_px.small) };
    } catch {
      return refuseBecause('photo-unreadable', said('server.photo.broken'));
    }
  });
}

/**
 * A picture that a device has made and named by its hash in a record: kept as it is, or not at all, since made anew it
 * would have another name. Nobody's word is taken for it that it tells no place: it has to be a plain JPEG, not larger
 * than a picture of ours, and whole.
 */
export async function whyNotKept(bytes: Uint8Array): Promise<Refusal | null> {
  if (bytes.length > limits.pictureBytes || !isPlainJpeg(bytes)) return refuse('photo-not-plain');
  return await inTurn(async () => {
    const bad = await whyUnread(bytes);
    if (bad !== null) return bad;
    try {
      const { width, height } = await reading(bytes).metadata();
      if (Math.max(width, height) > longSide_px.full) return refuse('photo-not-plain');
      // Reads every pixel, so that one that is cut short is found.
      await reading(bytes).stats();
      return null;
    } catch {
      return refuseBecause('photo-unreadable', said('server.photo.broken'));
    }
  });
}

async function made(bytes: Uint8Array, side_px: number): Promise<Uint8Array> {
  const jpeg = await reading(bytes)
    .autoOrient()
    .resize({ width: side_px, height: side_px, fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .jpeg({ quality, chromaSubsampling: '4:2:0', progressive: false })
    .toBuffer();
  const plain = plainJpeg(jpeg);
  if (plain === null) throw new Error('the library wrote no JPEG');
  return plain;
}

/** Looks at no more than the head of the file: what it is, and how large it would become. */
async function whyUnread(bytes: Uint8Array): Promise<Refusal | null> {
  const known = wellKnown(bytes);
  if (known !== null) return refuseBecause('photo-unreadable', said(`server.photo.${known}`));
  try {
    const { width, height } = await reading(bytes).metadata();
    return width * height > limits.photoPixels ? tooManyPixels() : null;
  } catch (error) {
    if (/pixel limit/i.test(String(error))) return tooManyPixels();
    return refuseBecause('photo-unreadable', said('server.photo.no-picture'));
  }
}

const tooManyPixels = (): Refusal => refuse('photo-too-large', sizes);
const sizes = { megabytes: limits.bodyBytes / 1024 / 1024, megapixels: limits.photoPixels / 1_000_000 };
export const photoTooLarge = tooManyPixels;

/** Forms that are pictures and cannot be read here, by their first bytes: what to do differs. */
function wellKnown(bytes: Uint8Array): 'heic' | 'other-form' | null {
  const head = String.fromCharCode(...bytes.subarray(0, 12));
  // ISO/IEC 14496-12 file type box, with the brands of ISO/IEC 23008-12 (HEIF).
  if (head.startsWith('ftyp', 4)) return /^(he|mi|ms)/.test(head.slice(8)) ? 'heic' : 'other-form';
  return /^(GIF8|BM|II\*\0|MM\0\*|<svg|<\?xml)/.test(head) ? 'other-form' : null;
}

let last: Promise<unknown> = Promise.resolve();
function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const mine = last.then(work);
  last = mine.catch(() => undefined);
  return mine;
}
