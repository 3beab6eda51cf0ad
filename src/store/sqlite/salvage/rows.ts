import type { Image } from './images.js';

/*
 * Rows of one table found without the engine: every place of a page is tried as the beginning of a row, so that neither a
 * damaged page header, nor a lost inner page, nor a page that the engine has given back keeps a row from being found.
 *
 *   row    length | rowid | header length | type of each column | value of each column   [| number of the next page]
 *
 * The first column is the rowid itself and lies there as NULL. What does not fit to the byte is no row; what fits by chance
 * is found out by whoever asks for the hash. Source: sqlite.org/fileformat2.html, sections 1.6 and 2.1.
 */

export type Value = string | number | null;
/** Where a row begins. */
export interface Place {
  readonly image: Image;
  readonly page: number;
  readonly at: number;
}
export interface Row {
  readonly rowid: number;
  /** One for each column; the first is always null. */
  readonly values: readonly Value[];
}

/** No row of ours is longer: the body of one record is limited by what the server takes in. */
const longest = 64 * 1024 * 1024;
const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** Every row of so many columns, with its place. */
export function* rowsIn(image: Image, columns: number): Generator<readonly [Place, Row]> {
  for (let page = 1; page <= image.pages; page += 1) {
    const bytes = image.pageAt(page);
    for (let at = 0; at < bytes.length - columns; at += 1) {
      const row = rowIn(image, bytes, at, columns);
      if (row !== null) yield [{ image, page, at }, row];
    }
  }
}

/** The row at a place where `rowsIn` has found one. */
export const rowAt = ({ image, page, at }: Place, columns: number): Row | null =>
  rowIn(image, image.pageAt(page), at, columns);

function rowIn(image: Image, page: Buffer, at: number, columns: number): Row | null {
  const length = varint(page, at);
  if (length === null || length.value < columns || length.value > longest) return null;
  const rowid = varint(page, length.next);
  if (rowid === null || rowid.value < 1) return null;
  const start = rowid.next;
  const header = varint(page, start);
  // One byte says how long the header is, and the first column is NULL: nearly every place ends here.
  if (header === null || header.next !== start + 1 || header.value <= columns || page[header.next] !== 0) return null;
  const types = typesOf(page, header.next, start + header.value, columns);
  if (types === null || header.value + types.reduce((sum, type) => sum + widthOf(type), 0) !== length.value)
    return null;
  const payload = payloadOf(image, page, start, length.value);
  return payload === null ? null : valuesOf(payload, header.value, types, rowid.value);
}

function typesOf(page: Buffer, from: number, end: number, columns: number): number[] | null {
  const types: number[] = [];
  for (let at = from; at < end; ) {
    const type = varint(page, at);
    // No blobs, no broken numbers, nothing reserved: our tables have none.
    if (type === null || type.value === 7 || type.value === 10 || type.value === 11) return null;
    if (type.value >= 12 && type.value % 2 === 0) return null;
    types.push(type.value);
    at = type.next;
    if (at > end) return null;
  }
  return types.length === columns ? types : null;
}

const widths = [0, 1, 2, 3, 4, 6, 8, 8, 0, 0];
const widthOf = (type: number): number => widths[type] ?? (type - 13) / 2;

/** The bytes of a row, the rest of a long one fetched from the pages it runs over. */
function payloadOf(image: Image, page: Buffer, start: number, length: number): Buffer | null {
  const usable = page.length;
  const here = localLength(length, usable);
  if (start + here > usable) return null;
  if (here === length) return page.subarray(start, start + length);
  if (start + here + 4 > usable) return null;
  const parts = [page.subarray(start, start + here)];
  let next = page.readUInt32BE(start + here);
  for (let left = length - here; left > 0; ) {
    const more = image.linked(next);
    if (more === null) return null;
    const part = more.subarray(4, 4 + Math.min(left, usable - 4));
    parts.push(part);
    left -= part.length;
    next = more.readUInt32BE(0);
  }
  return Buffer.concat(parts);
}

function localLength(length: number, usable: number): number {
  const most = usable - 35;
  if (length <= most) return length;
  const least = Math.floor(((usable - 12) * 32) / 255) - 23;
  const wanted = least + ((length - least) % (usable - 4));
  return wanted <= most ? wanted : least;
}

function valuesOf(payload: Buffer, from: number, types: readonly number[], rowid: number): Row | null {
  const values: Value[] = [];
  let at = from;
  for (const type of types) {
    const width = widthOf(type);
    const value = cellOf(payload.subarray(at, at + width), type);
    if (value === undefined) return null;
    values.push(value);
    at += width;
  }
  return { rowid, values };
}

function cellOf(bytes: Buffer, type: number): Value | undefined {
  if (type === 0) return null;
  if (type === 8 || type === 9) return type - 8;
  if (type === 6) return Number(bytes.readBigInt64BE(0));
  if (type < 7) return bytes.readIntBE(0, bytes.length);
  try {
    return utf8.decode(bytes);
  } catch {
    return undefined;
  }
}

/** A whole number of one to nine bytes, seven bits in each; null when it runs over the end or is larger than ours are. */
function varint(bytes: Buffer, at: number): { readonly value: number; readonly next: number } | null {
  let value = 0;
  for (let place = at; place < at + 7; place += 1) {
    const byte = bytes[place];
    if (byte === undefined) return null;
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: place + 1 };
  }
  return null;
}
