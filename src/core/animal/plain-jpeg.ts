/**
 * A JPEG that holds a picture and nothing else: no word on where, when, by whom or with what it was taken, no comment,
 * no second picture in front of or behind it. Device and server make it with this one function, so that a picture which
 * is plain already comes out of it byte for byte, and keeps its SHA-256.
 *
 *   FFD8 | segments: marker, length, bytes | FFDA length ... coded picture (FF00, FFD0 to FFD7 inside) ... | FFD9
 *
 * Kept are tables and frames (DQT, DHT, DAC, DNL, DRI, SOF, SOS); left out are APP0 to APP15, COM and all that stands
 * behind the end. Answers null for what is no whole JPEG. Source: ITU-T T.81, Annex B; Exif (JEITA CP-3451) lies in APP1.
 */
export function plainJpeg(bytes: Uint8Array): Uint8Array<ArrayBuffer> | null {
  if (bytes[0] !== 0xff || bytes[1] !== marker.start) return null;
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let at = 2;
  let scans = 0;
  for (;;) {
    if (bytes[at] !== 0xff) return null;
    // Any number of FF may stand in front of a marker.
    while (bytes[at + 1] === 0xff) at += 1;
    const code = bytes[at + 1];
    if (code === undefined) return null;
    if (code === marker.end) return scans === 0 ? null : joined([...kept, bytes.subarray(at, at + 2)]);
    const [high, low] = [bytes[at + 2], bytes[at + 3]];
    if (high === undefined || low === undefined) return null;
    let to = at + 2 + high * 256 + low;
    if (code === marker.scan) {
      scans += 1;
      to = endOfScan(bytes, to);
    }
    if (to > bytes.length || to < at + 4) return null;
    if (isPicture(code)) kept.push(bytes.subarray(at, to));
    else if (!isTold(code)) return null;
    at = to;
  }
}

/** True when a JPEG is as `plainJpeg` leaves it. */
export function isPlainJpeg(bytes: Uint8Array): boolean {
  const plain = plainJpeg(bytes);
  return plain !== null && plain.length === bytes.length && plain.every((byte, index) => byte === bytes[index]);
}

const marker = { start: 0xd8, end: 0xd9, scan: 0xda } as const;

/** Frames, tables and scans; the reserved C8 (JPG) is none. */
const isPicture = (code: number): boolean =>
  (code >= 0xc0 && code <= 0xcf && code !== 0xc8) || (code >= 0xda && code <= 0xdd);

/** What programs and cameras say about a picture: APPn and COM. */
const isTold = (code: number): boolean => (code >= 0xe0 && code <= 0xef) || code === 0xfe;

/** Where the coded picture ends: at the first marker that is neither a stuffed FF nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at += 1) {
    const next = bytes[at + 1] ?? 0;
    if (bytes[at] === 0xff && next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length + 1;
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
