import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

/** Pictures and fonts are packed by their own format. */
const worth = /\.(?:js|css|html|svg|webmanifest|json)$/;

/** Lays a packed copy, brotli and gzip, beside every file of the web app that gains by it; the server sends these. */
export async function packAhead(folder) {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && worth.test(entry.name))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name));
  const ways = [
    ['.br', (bytes) => promisify(brotliCompress)(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } })],
    ['.gz', (bytes) => promisify(gzip)(bytes, { level: 9 })],
  ];
  await Promise.all(
    files.map(async (file) => {
      const bytes = readFileSync(file);
      for (const [ending, pack] of ways) {
        const packed = await pack(bytes);
        if (packed.length < bytes.length) writeFileSync(`${file}${ending}`, packed);
      }
    }),
  );
}
