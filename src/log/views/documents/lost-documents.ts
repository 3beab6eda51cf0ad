import type { FormularyDocument } from '../../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import { type Said, said } from '../../../core/said.js';
import type { LogRecord } from '../../record.js';
import type { UnreadRecord } from '../../unread.js';

/** A document in force that cannot be worked with any more, because a record about it cannot be read. */
export interface LostDocument {
  readonly document: 'protocol' | 'formulary';
  readonly id: string;
  /** Null when what is damaged is its signature, its withdrawal or another record that said which version is in force. */
  readonly version: string | null;
}

type Version = LostDocument & { readonly version: string };

/**
 * Documents of which it cannot be said any more what is in force. Either the version signed last is not there to be read,
 * and nobody took it back; or a record about a document cannot be read, which may have been its signature, and nothing of
 * its kind was signed after it. `standing` are the records after corrections.
 */
export function lostDocuments(
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  unread: readonly UnreadRecord[],
  signedLast: ReadonlyMap<LostDocument['document'], Version>,
  isFiled: (one: Version) => boolean,
): readonly LostDocument[] {
  const filings = records.flatMap(filedBy);
  const gone = [...signedLast.values()].filter(
    (one) =>
      !isFiled(one) &&
      !filings.some(
        ({ document, id, version }) => document === one.document && id === one.id && version === one.version,
      ),
  );
  const unsure = unread.flatMap((one): LostDocument[] => {
    if (!one.subject.startsWith('document:')) return [];
    const id = one.subject.slice('document:'.length);
    const document = filings.find((filing) => filing.id === id)?.document ?? kindOf(one.kind);
    if (gone.some((other) => other.document === document)) return [];
    const isOver = standing.some(
      (record) =>
        record.kind === 'document-signed' && record.body.document === document && isAfter(record.seq, one.seq),
    );
    return isOver ? [] : [{ document, id, version: null }];
  });
  return [...gone, ...unsure];
}

const kindOf = (kind: string): LostDocument['document'] => (kind.startsWith('formulary') ? 'formulary' : 'protocol');

/** One without a place is not in the log yet, and will come after all that is. */
const isAfter = (place: number | undefined, other: number | null): boolean =>
  place === undefined || (other !== null && place > other);

function filedBy(record: LogRecord): Version[] {
  const filed: ProtocolDocument | FormularyDocument | null =
    record.kind === 'protocol-filed'
      ? record.body.protocol
      : record.kind === 'formulary-filed'
        ? record.body.formulary
        : null;
  if (filed === null) return [];
  return [{ document: 'products' in filed ? 'formulary' : 'protocol', id: filed.id, version: filed.version }];
}

/** The sentence about a document in force that cannot be read any more; null when there is none. */
export function lostInWords({ lost: [lost] }: { readonly lost: readonly LostDocument[] }): Said | null {
  if (lost === undefined) return null;
  const { document, id, version } = lost;
  return version === null ? said(`log.unsure-${document}`, { id }) : said(`log.lost-${document}`, { id, version });
}
