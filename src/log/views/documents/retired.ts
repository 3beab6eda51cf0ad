import type { PersonId, RecordId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';

/** That a version that had been signed was retired by somebody without a licence. */
export interface Retirement {
  readonly document: 'protocol' | 'formulary';
  readonly version: string;
  readonly why: string;
  readonly record: RecordId;
  readonly at: string;
  readonly by: PersonId;
  readonly writtenBy?: PersonId;
}

export const retiredFlagKey = ({ record }: Pick<Retirement, 'record'>): string => `retired-unlicensed:${record}`;

/** Retirements without a licence of what was signed, whatever was taken back since; by the order in which they came. */
export function retirements(records: readonly LogRecord[]): Retirement[] {
  const ends = records.filter((record) => record.kind === 'document-retired' && record.body.licence === undefined);
  if (ends.length === 0) return [];
  const signed = new Set(
    records.flatMap(({ kind, body }) =>
      kind === 'document-signed' ? [`${body.document} ${body.id}@${body.version}`] : [],
    ),
  );
  return ends.flatMap((record): Retirement[] => {
    if (record.kind !== 'document-retired') return [];
    const { document, id, version, why } = record.body;
    if (!signed.has(`${document} ${id}@${version}`)) return [];
    const { by, writtenBy, recordedAt: at } = record;
    return [{ document, version, why, record: record.id, at, by, ...(writtenBy === undefined ? {} : { writtenBy }) }];
  });
}

/** Whether an answer is that of who retired it: it takes the flag on and closes nothing. */
export function isOwnRetirement(
  retired: readonly Retirement[],
  flag: string,
  { by, writtenBy }: Pick<LogRecord, 'by' | 'writtenBy'>,
): boolean {
  const one = retired.find((each) => retiredFlagKey(each) === flag);
  return one !== undefined && [by, writtenBy ?? by].some((hand) => hand === one.by || hand === one.writtenBy);
}
