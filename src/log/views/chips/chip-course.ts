import type { Animal, ChipScan } from '../../../core/animal/animal.js';
import { sameChip } from '../../../core/chip/read-chip.js';
import type { RecordId } from '../../../core/ids.js';
import type { LogRecord } from '../../record.js';

type Scan = LogRecord<'chip-scanned'>;
type Implant = LogRecord<'chip-implanted'>;

/**
 * How far implanting has come on a round, read from the records alone:
 *
 *   scan the animal -> none found -> scan the pack -> implant -> scan the animal -> the same: done
 *        |                              ^                             |
 *        +-> found: stop, there is      |                             +-> another number: stop
 *            a chip already             |                             +-> nothing: try the reader on a known chip,
 *                                       |                                 scan the whole animal again -> nothing: gone
 *                                       +---- discarded: fresh needle, fresh chip ----+
 *
 * `differs` and `unreadable` stay open until the animal was scanned again or the team leaves them to the desk.
 */
export type ChipCourse =
  | { readonly is: 'scan-before' }
  /** `records`: the scans that read it, this round or ever, and that nobody has answered as another cat's. */
  | { readonly is: 'found'; readonly code: string; readonly records: readonly RecordId[] }
  | { readonly is: 'scan-pack' }
  | { readonly is: 'implant'; readonly code: string; readonly pack: Scan }
  /** `again`: nothing was read before, and the reader has been tried on a known chip since. */
  | { readonly is: 'scan-after'; readonly code: string; readonly implant: Implant; readonly again: boolean }
  | { readonly is: 'same'; readonly code: string; readonly implant: Implant }
  | {
      readonly is: 'differs';
      readonly code: string;
      readonly implant: Implant;
      readonly scan: Scan;
      readonly found: string;
    }
  | { readonly is: 'unreadable'; readonly code: string; readonly implant: Implant; readonly scan: Scan }
  /** Nothing was read by a reader that reads: the chip is not in the animal, or cannot be found. */
  | { readonly is: 'gone'; readonly code: string; readonly implant: Implant; readonly scan: Scan };

/**
 * `own`: the records of one animal on one round that stand, in the order of the devices. `ever`: all its scans. A chip
 * that any of them read in the animal stops the implant, whatever was read or not read since.
 */
export function chipCourse(own: readonly LogRecord[], ever: readonly ChipScan[] = []): ChipCourse {
  const at = own.findLastIndex((record) => record.kind === 'chip-implanted' && !isDiscarded(own, record.id));
  const implant = own[at];
  if (implant?.kind === 'chip-implanted') return afterImplant(implant, own.slice(at + 1));
  const found = readInIt(own, ever);
  if (found !== null) return found;
  const before = own.findLastIndex((record) => isScan(record, 'before') && isEmpty(record));
  // What was read was another cat's: this one is scanned after that.
  const another = own.findLastIndex((record) => record.kind === 'chip-scanned' && record.body.ofAnother);
  if (before < 0 || before < another) return { is: 'scan-before' };
  const discarded = own.findLastIndex((record) => record.kind === 'chip-discarded');
  const pack = own.slice(Math.max(before, discarded) + 1).findLast((record) => isScan(record, 'pack'));
  if (pack?.kind !== 'chip-scanned' || pack.body.found === null) return { is: 'scan-pack' };
  return { is: 'implant', code: pack.body.found.code, pack };
}

/** A chip that was read in the animal; not one that went in on this round and was discarded since. */
function readInIt(own: readonly LogRecord[], ever: readonly ChipScan[]): ChipCourse | null {
  const here = new Set<string>(own.map(({ id }) => id));
  const before = ever.flatMap(({ record, target, code, ofAnother }) =>
    target === 'animal' && code !== null && ofAnother !== true && !here.has(record) ? [{ record, code }] : [],
  );
  const now = own.flatMap((one, place) => {
    if (one.kind !== 'chip-scanned' || one.body.target !== 'animal' || one.body.ofAnother) return [];
    const code = one.body.found?.code;
    const gone = own.slice(place).some((later) => later.kind === 'chip-discarded' && later.body.code === code);
    return code === undefined || gone ? [] : [{ record: one.id, code }];
  });
  const reads = [...before, ...now];
  const code = reads.at(-1)?.code;
  if (code === undefined) return null;
  return { is: 'found', code, records: reads.filter((read) => sameChip(read.code, code)).map(({ record }) => record) };
}

function afterImplant(implant: Implant, since: readonly LogRecord[]): ChipCourse {
  const { code } = implant.body;
  const at = since.findLastIndex((record) => isScan(record, 'after'));
  const scan = since[at];
  if (scan?.kind !== 'chip-scanned') return { is: 'scan-after', code, implant, again: false };
  // Nothing read afterwards takes no number back that was read.
  const other = since.findLastIndex((record) => isScan(record, 'after') && !isEmpty(record));
  const differs = readsAnother(since, other, code);
  if (differs !== null) return { is: 'differs', code, implant, ...differs };
  // Another cat was on the table: what was scanned before this one was made sure of says nothing of it.
  const another = since[other];
  if (another?.kind === 'chip-scanned' && !sameChip(another.body.found?.code ?? '', code)) {
    const sure = since.findLastIndex((record) => record.kind === 'animal-identified');
    if (sure > other) return afterImplant(implant, since.slice(sure + 1));
  }
  const { found } = scan.body;
  if (found === null) {
    const empty = since.findIndex((record) => isScan(record, 'after') && isEmpty(record));
    const tried = since.findLastIndex((record) => isScan(record, 'reader') && !isEmpty(record));
    if (tried < empty) return { is: 'unreadable', code, implant, scan };
    return tried < at ? { is: 'gone', code, implant, scan } : { is: 'scan-after', code, implant, again: true };
  }
  if (sameChip(found.code, code)) return { is: 'same', code, implant };
  return { is: 'scan-after', code, implant, again: false };
}

/**
 * The scan at a place, where it read another number than the animal has to show; null where it did not, or where another
 * cat was on the table and this one has been made sure of since.
 */
function readsAnother(
  records: readonly LogRecord[],
  at: number,
  code: string,
): { readonly scan: Scan; readonly found: string } | null {
  const scan = records[at];
  if (scan?.kind !== 'chip-scanned' || scan.body.found === null) return null;
  const found = scan.body.found.code;
  if (sameChip(found, code) || scan.body.ofAnother) return null;
  const madeSure = records.slice(at).some((record) => record.kind === 'animal-identified');
  return madeSure && !scan.body.leftToDesk ? null : { scan, found };
}

/**
 * Another number than `code`, read last of all that was read in the animal since it went in or was found; or one that was
 * left to the desk, whatever was read after it: only a person's answer clears that up.
 */
export function readsOther(code: string, since: readonly LogRecord[]): NonNullable<Animal['chip']>['differs'] {
  const at = since.findLastIndex((record) => asksAgain(record) && !isEmpty(record));
  const left = since.findLastIndex((record, place) => isLeft(record) && readsAnother(since, place, code) !== null);
  const differs = readsAnother(since, at, code) ?? readsAnother(since, left, code);
  return differs === null
    ? undefined
    : { code: differs.found, scan: differs.scan.id, word: differs.scan.body.word !== undefined };
}

const isLeft = (record: LogRecord): boolean => record.kind === 'chip-scanned' && record.body.leftToDesk;

/** A chip that was read where another number has to stand, and that nobody has answered yet. */
export interface Difference {
  readonly expected: string;
  readonly scan: Scan;
  readonly found: string;
  /** The last scan made for an answer: that one or a later one that read nothing. */
  readonly asked: RecordId;
}

/**
 * The difference that stops the work on an animal: after implanting, or when a chip on record was looked for. It goes
 * with the next scan of that kind, with making sure of the animal again, or once the team has left it to the desk.
 */
export function openDifference(animal: Pick<Animal, 'chip'>, own: readonly LogRecord[]): Difference | null {
  const course = chipCourse(own);
  const asked = own.findLast(asksAgain)?.id;
  if (asked === undefined) return null;
  if (course.is === 'differs' && !course.scan.body.leftToDesk) {
    return { expected: course.code, scan: course.scan, found: course.found, asked };
  }
  if (animal.chip === null) return null;
  const at = own.findLastIndex((record) => (isScan(record, 'recheck') || isScan(record, 'exit')) && !isEmpty(record));
  const differs = readsAnother(own, at, animal.chip.code);
  if (differs === null || differs.scan.body.leftToDesk) return null;
  return { expected: animal.chip.code, ...differs, asked };
}

const isScan = (record: LogRecord, occasion: string): boolean =>
  record.kind === 'chip-scanned' && record.body.occasion === occasion;
/** The scans by which a chip that is known has to show itself. */
const asksAgain = (record: LogRecord): boolean =>
  isScan(record, 'after') || isScan(record, 'recheck') || isScan(record, 'exit');
const isEmpty = (record: LogRecord): boolean => record.kind === 'chip-scanned' && record.body.found === null;

/** Whether an implanted chip came out again, or could not be found, and was discarded. */
export const isDiscarded = (records: readonly LogRecord[], implant: RecordId): boolean =>
  records.some((record) => record.kind === 'chip-discarded' && record.body.implant === implant);
