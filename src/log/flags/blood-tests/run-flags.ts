import type { Animal, TestRun } from '../../../core/animal/animal.js';
import { byOneClock, type Clocked, msBetween } from '../../../core/clocked.js';
import { kitReady } from '../../../core/point-of-care/kit.js';
import { phaseAt, windowOf } from '../../../core/point-of-care/window.js';
import { type Said, said } from '../../../core/said.js';
import { clocked } from '../../device-clock.js';
import { aboutAnimal, deskAndMedical, type Own, type Raised, type ToldCode, writerOf } from '../../flag.js';
import { type LogRecord, writtenLater } from '../../record.js';
import { kitTypeNamed } from '../../views/blood-tests/test-runs.js';
import { bySaying } from '../../views/effective.js';
import type { Ground } from '../../views/ground.js';

/** What is odd about how a test was run, for the medical team to settle: the record alone cannot say which is true. */
export const runFlags = (
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): Raised[] => [
  ...secondStarts(animal, records, standing),
  ...clockDecides(animal, records, standing, ground),
  ...kitFlags(animal, standing, ground),
];

/** A lot that is none of kits, and a kit that was not warm by what was written down, or of which nobody wrote it down. */
function kitFlags(animal: Animal, standing: readonly LogRecord[], ground: Ground): Raised[] {
  return standing.flatMap((start): Raised[] => {
    if (start.kind !== 'test-started') return [];
    const { lot, kitType, outOfColdAt, untimed } = start.body;
    const isNoKit = lot !== null && ground.lots.get(lot)?.of.is !== 'kit';
    const wrong = isNoKit ? [attention('kit-lot-not-kit', start)] : [];
    const kit = kitTypeNamed(ground, kitType);
    if (kit === null || untimed === true) return wrong;
    const { is } = kitReady(kit, outOfColdAt, start.happenedAt);
    // Paper does not ask for it: what was keyed in afterwards cannot know.
    if (is === 'unknown') return writtenLater(start) ? wrong : [...wrong, attention('kit-cold-unknown', start)];
    const isAhead = outOfColdAt !== null && outOfColdAt > start.happenedAt;
    if (is !== 'warming' && !isAhead) return wrong;
    const values = { at: { instant: start.happenedAt }, out: { instant: outOfColdAt ?? '' }, minutes: kit.warmMinutes };
    return [...wrong, attention('kit-not-warm', start, values)];
  });

  function attention<C extends ToldCode>(code: C, start: LogRecord, ...own: Own<C>): Raised {
    const { closedBy: _, ...rest } = flagOf(animal, code, 'attention', start, ...own);
    return rest;
  }
}

/** A second start under one run: the first one counts, and both are told. */
function secondStarts(animal: Animal, records: readonly LogRecord[], standing: readonly LogRecord[]): Raised[] {
  const starts = standing.filter((record) => record.kind === 'test-started');
  if (starts.length < 2) return [];
  const order = starts.toSorted(bySaying(records));
  return order.flatMap((second): Raised[] => {
    const first = order.find((one) => one.body.run === second.body.run);
    if (first === undefined || first === second) return [];
    const values = { first: startSaid(first), second: startSaid(second) };
    return [flagOf(animal, 'second-start', 'stop', second, values)];
  });
}

const startSaid = ({ by, happenedAt, body: { kitType, kitLot } }: LogRecord<'test-started'>): Said =>
  said('flag.second-start.one', {
    kit: kitType,
    lot: kitLot || said('desk.lot-unknown'),
    person: { person: by },
    at: { instant: happenedAt },
  });

/**
 * Readings that are in their window only because a device said that its clock was off. A stop where other records of that
 * device about the animal, of the same day, say otherwise of its clock.
 */
function clockDecides(
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): Raised[] {
  return animal.runs.flatMap((run): Raised[] => {
    const read = standing.find(({ id }) => id === run.readRecord);
    if (read === undefined || (run.result !== 'negative' && run.result !== 'invalid')) return [];
    const off = clockThatDecides(run, ground);
    if (off === null) return [];
    const isContradicted = [run.start, run.reading].some((one) => one !== null && saysOtherwise(one, records));
    const minutes = Math.round(Math.abs(off.ahead_ms) / 60_000);
    return [flagOf(animal, 'clock-decides', isContradicted ? 'stop' : 'attention', read, { minutes })];
  });
}

/** The one of its two clocks that is further off, when a reading is in its window by the corrected times alone. */
function clockThatDecides({ kitType, start, reading }: TestRun, ground: Ground): Clocked | null {
  const kit = kitTypeNamed(ground, kitType);
  if (kit === null || start === null || reading === null) return null;
  const isOpen = (from: string, to: string): boolean => phaseAt(windowOf(kit, from), to).phase === 'open';
  if (isOpen(start.at, reading.at) || !isOpen(...byOneClock(start, reading))) return null;
  return Math.abs(start.ahead_ms) > Math.abs(reading.ahead_ms) ? start : reading;
}

/** One clock is measured to within less; records further apart may be of another clock. Both ours. */
const sameClock_ms = 5_000;
const sameDay_ms = 24 * 3_600_000;

const saysOtherwise = (one: Clocked, records: readonly LogRecord[]): boolean =>
  records.some((record) => {
    if (record.device !== one.device) return false;
    const other = clocked(record);
    // A time that somebody told has no clock in it.
    const isTold = other.sure && (record.said ?? record).clock === undefined;
    return (
      !isTold &&
      Math.abs(msBetween(one.at, other.at)) <= sameDay_ms &&
      Math.abs(other.ahead_ms - one.ahead_ms) > sameClock_ms
    );
  });

function flagOf<C extends ToldCode>(
  animal: Animal,
  code: C,
  severity: Raised['severity'],
  record: LogRecord,
  ...own: Own<C>
): Raised {
  return {
    ...aboutAnimal(code, animal.name, record.id, own),
    severity,
    animal: animal.id,
    about: record.id,
    raisedAt: record.happenedAt,
    for: deskAndMedical,
    by: record.by,
    ...writerOf(record),
    closedBy: 'medical',
  };
}
