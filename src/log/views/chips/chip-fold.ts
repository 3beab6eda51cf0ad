import type { Animal, ChipScan, HistoryEvent } from '../../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../../core/calendar.js';
import { chipNumber, isWholeNumber, sameChip } from '../../../core/chip/read-chip.js';
import { derived } from '../../../core/derived.js';
import type { LogRecord } from '../../record.js';
import { madeAfter } from '../device-order.js';
import { isDiscarded, readsOther } from './chip-course.js';

type Scan = LogRecord<'chip-scanned'>;
type Implant = LogRecord<'chip-implanted'>;
type Discard = LogRecord<'chip-discarded'>;

const dayIn = derived((record: LogRecord): CalendarDate => dayOfInstant(record.happenedAt, record.zone));

/** A scan as the animal keeps it. */
export function scanOf({ id, happenedAt: at, body }: Scan, on: CalendarDate): ChipScan {
  const { target, occasion, found, round, ofAnother } = body;
  const read = { code: found?.code ?? null, raw: found?.raw ?? '' };
  return { record: id, at, on, target, occasion, ...read, ...(ofAnother ? { ofAnother } : {}), round };
}

/**
 * The chip the animal carries: the last one implanted that has not been discarded, else the first one found in it, and
 * then beside it those that it had when that one went in. A second number that is found later never takes its place in
 * silence, nor does anything that is no whole number. Confirmed once a scan of the animal showed the same number.
 */
export function foldChip(standing: readonly LogRecord[], history: HistoryEvent[]): Animal['chip'] {
  const implant = standing.findLast(
    (record): record is Implant => record.kind === 'chip-implanted' && !isDiscarded(standing, record.id),
  );
  const scans = standing.filter(
    (record): record is Scan => record.kind === 'chip-scanned' && record.body.target === 'animal',
  );
  if (implant !== undefined) {
    const { code } = implant.body;
    const confirmed = scans.some((scan) => scan.body.found?.code === code && madeAfter(scan, implant));
    const { id: record, happenedAt: at } = implant;
    history.push({ what: 'chipped', record, at, on: dayIn(implant), code, confirmed, implanted: true });
    const also = carriedBefore(standing, implant);
    const more = also.length === 0 ? {} : { also };
    return { code, confirmed, record, ...more, ...differing(code, since(standing, implant)) };
  }
  const found = scans.find((scan) => scan.body.found !== null && tellsOfAChip(standing, scan));
  const code = found?.body.found?.code;
  if (found === undefined || code === undefined) return null;
  const { id: record, happenedAt: at } = found;
  history.push({ what: 'chipped', record, at, on: dayIn(found), code, confirmed: true });
  return { code, confirmed: true, record, ...differing(code, since(standing, found)) };
}

const since = (standing: readonly LogRecord[], first: LogRecord): LogRecord[] =>
  standing.filter((record) => record.id !== first.id && madeAfter(record, first));

function differing(code: string, records: readonly LogRecord[]): Pick<NonNullable<Animal['chip']>, 'differs'> {
  const differs = readsOther(code, records);
  return differs === undefined ? {} : { differs };
}

/**
 * Whether what a scan of the animal read goes on its record. A scan to identify is compared and proves no chip; one
 * that was to show an implanted chip which was discarded since had that chip, or its own misreading, before it.
 */
function tellsOfAChip(standing: readonly LogRecord[], scan: Scan): boolean {
  if (scan.body.occasion === 'identify' || scan.body.ofAnother) return false;
  if (!isWholeNumber(scan.body.found?.code ?? '')) return false;
  return !discards(standing).some((discard) => {
    const implant = standing.find((record) => record.id === discard.body.implant);
    if (implant === undefined) return false;
    return scan.body.occasion === 'after' || (madeAfter(scan, implant) && !madeAfter(scan, discard));
  });
}

/** Other chips that an animal carried when one was put in: put in and not discarded, or found in it before. */
export function carriedBefore(standing: readonly LogRecord[], implant: Implant): readonly string[] {
  const codes = standing.flatMap((record): string[] => {
    if (record === implant || !madeAfter(implant, record)) return [];
    if (record.kind === 'chip-implanted') return isDiscarded(standing, record.id) ? [] : [record.body.code];
    if (record.kind !== 'chip-scanned' || record.body.target !== 'animal' || record.body.found === null) return [];
    const isDiscardedSince = discards(standing).some(({ body }) => sameChip(body.code, record.body.found?.code ?? ''));
    return tellsOfAChip(standing, record) && !isDiscardedSince ? [record.body.found.code] : [];
  });
  const own = chipNumber(implant.body.code);
  return [...new Map(codes.map((code) => [chipNumber(code), code]))].flatMap(([number, code]) =>
    number === own ? [] : [code],
  );
}

const discards = (standing: readonly LogRecord[]): Discard[] =>
  standing.filter((record): record is Discard => record.kind === 'chip-discarded' && record.body.implant !== null);

/** What is known of the chips of an animal that has none on record: one that went in and came out, one that was read. */
export interface ChipsInDoubt {
  readonly discarded: readonly string[];
  readonly read: readonly string[];
}

export function chipsInDoubt(records: readonly LogRecord[]): ChipsInDoubt {
  const discarded = new Set(discards(records).map((record) => record.body.code));
  const read = new Set(
    records.flatMap((record) => {
      const code =
        record.kind === 'chip-scanned' && record.body.target === 'animal' && !record.body.ofAnother
          ? record.body.found?.code
          : null;
      return code == null || [...discarded].some((gone) => sameChip(gone, code)) ? [] : [code];
    }),
  );
  return { discarded: [...discarded], read: [...read] };
}
