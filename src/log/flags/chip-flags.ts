import { type Animal, numbersOn } from '../../core/animal/animal.js';
import { chipNumber, isWholeNumber, sameChip } from '../../core/chip/read-chip.js';
import { derived } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { desk, deskAndMedical, type Raise, type Raised, raisedBy } from '../flag.js';
import { type LogRecord, writtenLater } from '../record.js';
import { isDiscarded } from '../views/chips/chip-course.js';
import { carriedBefore, foldChip } from '../views/chips/chip-fold.js';
import { codesInBoxes } from '../views/chips/chip-pack.js';
import { warningsOf } from '../views/chips/chip-warnings.js';
import { madeAfter } from '../views/device-order.js';
import { byOneHand, replacedIn } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { ofKinds, withCorrections } from '../views/parts.js';

/** What the chips of one animal have to show to a person. */
export const chipFlags = (
  { id, name, chip }: Pick<Animal, 'id' | 'name' | 'chip'>,
  records: readonly LogRecord[],
  { lots }: Pick<Ground, 'lots'>,
  standing: readonly LogRecord[],
): readonly Raised[] => flagsOf(chips(standing), scansAsWritten(records), lots, chip, id, name);

const chips = ofKinds('chip-scanned', 'chip-implanted', 'chip-discarded', 'animal-identified');
const scansAsWritten = withCorrections('chip-scanned');

const flagsOf = derived(
  (
    standing: readonly LogRecord[],
    records: readonly LogRecord[],
    lots: Ground['lots'],
    chip: Animal['chip'],
    id: AnimalId,
    name: string,
  ): readonly Raised[] => raisedBy({ id, name }, (raise) => raiseAll({ chip }, records, lots, standing, raise)),
);

function raiseAll(
  animal: Pick<Animal, 'chip'>,
  records: readonly LogRecord[],
  lots: Ground['lots'],
  standing: readonly LogRecord[],
  raise: Raise,
): void {
  const takenBack = foundAndTakenBack(records, standing);
  for (const { scan, code, taker } of takenBack) {
    const values = { chip: code, person: { person: taker.by } };
    raise('chip-found-taken-back', 'attention', scan, deskAndMedical, values);
  }
  scanFlags(animal, standing, raise);
  neverScanned(standing, raise);
  warningFlags(standing, raise);
  const boxed = codesInBoxes(lots);
  for (const record of standing) {
    if (record.kind === 'chip-implanted' && boxed.size > 0 && !boxed.has(record.body.code)) {
      raise('chip-no-box', 'attention', record, desk, { chip: record.body.code });
    }
    numberFlags(record, raise);
    if (record.kind === 'chip-implanted' && !isDiscarded(standing, record.id)) {
      const gone = takenBack.filter(({ scan, code }) => madeAfter(record, scan) && !sameChip(code, record.body.code));
      const also = [...new Set([...carriedBefore(standing, record), ...gone.map(({ code }) => code)])];
      const values = { chip: record.body.code, also: { list: also } };
      if (also.length > 0) raise('chip-second', 'stop', record, deskAndMedical, values);
    }
    if (record.kind === 'chip-discarded' && record.body.implant !== null) {
      // One that was in and is said to have dropped has come out again.
      const code = record.body.why === 'not-found' ? 'chip-not-found' : 'chip-seen-outside';
      raise(code, 'attention', record, deskAndMedical, { chip: record.body.code });
    }
  }
}

/** Numbers read in the animal that somebody else than who had read them withdrew or put otherwise. */
function foundAndTakenBack(records: readonly LogRecord[], standing: readonly LogRecord[]) {
  const next = replacedIn(records);
  return records.flatMap((scan) => {
    const taker = next.get(scan.id);
    const code = foundIn(scan);
    if (taker === undefined || code === null || !isWholeNumber(code) || byOneHand([scan, taker])) return [];
    const isShown = standing.some((one) => sameChip(foundIn(one) ?? '', code));
    return isShown ? [] : [{ scan, code, taker }];
  });
}

const foundIn = (record: LogRecord): string | null =>
  record.kind === 'chip-scanned' && record.body.target === 'animal' ? (record.body.found?.code ?? null) : null;

/** A number that is not whole, and what a reader sent that is another number than what was written down. */
function numberFlags(record: LogRecord, raise: Raise): void {
  const shown = numberIn(record);
  if (shown === null) return;
  if (!isWholeNumber(shown.code)) raise('chip-not-whole', 'stop', record, deskAndMedical, { chip: shown.code });
  const raw = chipNumber(shown.raw);
  if (!raw.startsWith('?') && raw !== chipNumber(shown.code)) {
    raise('chip-raw-differs', 'stop', record, deskAndMedical, { chip: shown.code, raw });
  }
}

/** At the cage the scan comes next and the round is not handed back without it; what was written down later has none. */
function neverScanned(standing: readonly LogRecord[], raise: Raise): void {
  const implant = standing.findLast((record) => record.kind === 'chip-implanted');
  if (implant?.kind !== 'chip-implanted' || !writtenLater(implant) || isDiscarded(standing, implant.id)) return;
  const scanned = standing.some(
    (record) =>
      record.kind === 'chip-scanned' &&
      record.body.target === 'animal' &&
      record.body.occasion !== 'before' &&
      record.happenedAt >= implant.happenedAt,
  );
  if (!scanned) raise('chip-not-scanned', 'attention', implant, deskAndMedical, { chip: implant.body.code });
}

/** The chip on record at the time of a scan: one that went in later was not compared with it. */
const chipBefore = (standing: readonly LogRecord[], scan: LogRecord): string | null =>
  foldChip(
    standing.filter((one) => one.id !== scan.id && madeAfter(scan, one)),
    [],
  )?.code ?? null;

/** Numbers that do not agree, or could not be read. */
function scanFlags(animal: Pick<Animal, 'chip'>, standing: readonly LogRecord[], raise: Raise): void {
  /** Numbers told in the stop that stands: scanned once more they are the same stop, until the animal is made sure of. */
  const told = new Set<string>();
  for (const record of standing) {
    if (record.kind === 'animal-identified' && record.body.by !== 'paper') told.clear();
    if (record.kind !== 'chip-scanned' || record.body.target !== 'animal') continue;
    const { found, occasion, round } = record.body;
    const code = found?.code ?? null;
    const which = `${round} ${code}`;
    if (occasion === 'identify' && code !== null && animal.chip !== null && told.has(which)) continue;
    if (occasion === 'identify') told.add(which);
    if (occasion === 'identify' && code !== null && animal.chip !== null && !numbersOn(animal).includes(code)) {
      const then = chipBefore(standing, record);
      if (then === null) {
        raise('chip-read-before', 'stop', record, deskAndMedical, { found: code, chip: animal.chip.code });
      } else if (then !== code) raise('wrong-animal', 'stop', record, desk, { found: code, chip: then });
    }
    if (occasion !== 'after' && occasion !== 'recheck' && occasion !== 'exit') continue;
    const implant = standing.findLast((one) => one.kind === 'chip-implanted' && madeAfter(record, one));
    const expected = implant?.kind === 'chip-implanted' ? implant.body.code : (animal.chip?.code ?? null);
    if (expected === null) continue;
    if (code === null) {
      // Read again since, or discarded: the empty scan has had its answer.
      const gone = implant !== undefined && isDiscarded(standing, implant.id);
      if (!gone && !isReadSince(standing, record, expected)) {
        raise('chip-not-read', 'attention', record, deskAndMedical, { chip: expected });
      }
    } else if (code !== expected) {
      raise('chip-differs', 'stop', record, deskAndMedical, { chip: expected, found: code });
      const { word } = record.body;
      if (word !== undefined) {
        const by = { person: { person: word.by }, how: said(`round.gate.reason.${word.how}`), reason: word.reason };
        raise('chip-gone-on', 'attention', record, deskAndMedical, { chip: expected, found: code, ...by });
      }
    }
  }
}

const isReadSince = (standing: readonly LogRecord[], empty: LogRecord, code: string): boolean =>
  standing.some(
    (record) =>
      record.kind === 'chip-scanned' &&
      record.body.target === 'animal' &&
      record.body.occasion !== 'identify' &&
      record.body.found?.code === code &&
      madeAfter(record, empty),
  );

/** Signs of a short number say only that it is short; whether it is whole has been asked when it was read. */
const onlyShort: readonly string[] = ['chip.nine-digits', 'chip.ten-digits'];

/** Numbers that no animal should carry: each number and each reason once, about the record that showed it first. */
function warningFlags(standing: readonly LogRecord[], raise: Raise): void {
  const told = new Set<string>();
  for (const record of standing) {
    const shown = numberIn(record);
    if (shown === null) continue;
    for (const why of warningsOf(shown.raw)) {
      const which = `${shown.code} ${why.say}`;
      if (told.has(which) || onlyShort.includes(why.say)) continue;
      told.add(which);
      const severity = why.say === 'chip.test-number' ? 'stop' : 'attention';
      raise('chip-doubtful', severity, record, deskAndMedical, { chip: shown.code, why: why }, why.say);
    }
  }
}

function numberIn(record: LogRecord): { readonly raw: string; readonly code: string } | null {
  if (record.kind === 'chip-implanted') return { raw: record.body.code, code: record.body.code };
  if (record.kind !== 'chip-scanned' || record.body.target !== 'animal' || record.body.found === null) return null;
  const { raw, code } = record.body.found;
  return { raw: raw === '' ? code : raw, code };
}
