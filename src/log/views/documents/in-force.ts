import type { PersonId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';
import { inOrderOfSaying } from '../effective.js';

/** A kind of document of which one was signed once and none is in force any more, and the record since which it is so. */
export interface NoneInForce {
  readonly document: 'protocol' | 'formulary';
  readonly record: LogRecord['id'];
  readonly at: string;
  readonly by: PersonId;
}

/** The last thing that was said about a signed document of that kind: it ended it, or was not enough to replace it. */
export function noneInForce(records: readonly LogRecord[], document: NoneInForce['document']): NoneInForce | null {
  const signed = records.filter((one) => one.kind === 'document-signed' && one.body.document === document);
  if (signed.length === 0) return null;
  const subjects = new Set(signed.map(({ subject }) => subject));
  const ends = records.filter(
    ({ kind, corrects, subject }) =>
      subjects.has(subject) && (kind === 'document-retired' || kind === 'document-signed' || corrects !== undefined),
  );
  const last = inOrderOfSaying(ends).at(-1);
  return last === undefined ? null : { document, record: last.id, at: last.recordedAt, by: last.by };
}
