import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/*
 * A record file and its journal as they lie on the disk, whatever the engine thinks of them.
 *
 *   main file   page 1 | page 2 | ...                      page size in bytes 16 and 17 of the file
 *   journal     32 bytes | frame | frame | ...             a frame is 24 bytes, of them 4 the page number, and a page
 *
 * Source: sqlite.org/fileformat2.html, sections 1.2, 1.3.2 and 4.1.
 */

/** Pages that may hold records, numbered from 1, and where the rest of a long one is found. */
export interface Image {
  readonly pages: number;
  readonly pageAt: (number: number) => Buffer;
  /** A page of the store by its own number; null when there is none. */
  readonly linked: (number: number) => Buffer | null;
}

/** What our stores are made with; asked only when the file itself does not say. */
const usualPage = 4096;
const journalHead = 32;
const frameHead = 24;

/** The main file, and the journal over it when there is one. Both stay open until `close`. */
export function openImages(file: string): { readonly images: readonly Image[]; readonly close: () => void } {
  const main = openSync(file, 'r');
  const journal = openIfThere(`${file}-wal`);
  const size = pageSizeOf(main);
  const image = imageOfMain(main, size);
  return {
    images: journal === null ? [image] : [image, imageOfJournal(journal, size, image)],
    close: () => {
      closeSync(main);
      if (journal !== null) closeSync(journal);
    },
  };
}

function imageOfMain(file: number, size: number): Image {
  const pages = Math.ceil(fstatSync(file).size / size);
  const pageAt = (number: number): Buffer => bytesOf(file, (number - 1) * size, size);
  return { pages, pageAt, linked: (number) => (number >= 1 && number <= pages ? pageAt(number) : null) };
}

/** Every frame, also those that the engine would pass over: a record out of them has to prove itself like any other. */
function imageOfJournal(file: number, size: number, main: Image): Image {
  const frame = frameHead + size;
  const pages = Math.max(0, Math.floor((fstatSync(file).size - journalHead) / frame));
  const startOf = (number: number): number => journalHead + (number - 1) * frame;
  const last = new Map<number, number>();
  for (let number = 1; number <= pages; number += 1)
    last.set(bytesOf(file, startOf(number), 4).readUInt32BE(0), number);
  const pageAt = (number: number): Buffer => bytesOf(file, startOf(number) + frameHead, size);
  return {
    pages,
    pageAt,
    linked: (number) => {
      const at = last.get(number);
      return at === undefined ? main.linked(number) : pageAt(at);
    },
  };
}

function pageSizeOf(file: number): number {
  const size = bytesOf(file, 16, 2).readUInt16BE(0);
  const told = size === 1 ? 65_536 : size;
  return told >= 512 && (told & (told - 1)) === 0 ? told : usualPage;
}

/** As many bytes as asked for; what the file or the disk does not give is zero. */
function bytesOf(file: number, at: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  try {
    readSync(file, bytes, 0, length, at);
  } catch {
    // A part of the disk that cannot be read: nothing will prove itself out of it.
  }
  return bytes;
}

function openIfThere(file: string): number | null {
  try {
    return openSync(file, 'r');
  } catch {
    return null;
  }
}
