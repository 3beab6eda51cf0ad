import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { decodeText, type Encoding } from '../../../core/intake/file/decode.js';
import { readTable, type Table } from '../../../core/intake/file/table.js';
import { no, type Outcome, ok, type Said } from '../../../core/said.js';

export interface OpenFile {
  readonly name: string;
  /** SHA-256 of its bytes, hex. */
  readonly digest: string;
  readonly encoding: Encoding;
  readonly table: Table;
  readonly doubts: readonly Said[];
}

/** Larger files than this are not animals of one shelter; ours. */
const most_bytes = 50_000_000;

/** The bytes of a file as a table of texts, or the sentence why not. Nothing is recorded. */
export async function openFile(file: File): Promise<Outcome<OpenFile>> {
  if (file.size > most_bytes) return no('desk.import.too-large');
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    return no('desk.import.unreadable', { name: file.name });
  }
  const decoded = decodeText(bytes);
  if (!decoded.ok) return decoded;
  const table = readTable(decoded.value.text);
  if (table.headings.length === 0) return { ok: false, why: table.problems[0] ?? { say: 'import.empty-file' } };
  return ok({
    name: file.name,
    digest: bytesToHex(sha256(bytes)),
    encoding: decoded.value.encoding,
    table,
    doubts: [...decoded.value.doubts, ...table.problems.slice(0, 10)],
  });
}
