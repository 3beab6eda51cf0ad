import type { Animal } from '../../core/animal/animal.js';
import { type CalendarDate, dayOfInstant } from '../../core/calendar.js';
import { derived, eachOf, partBy } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { said } from '../../core/said.js';
import { aboutAnimal, deskAndMedical, type Own, type Raised, raisedBy, type ToldCode, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { dayOf, type Seen, seenOf } from '../views/animal.js';
import { isMedical } from '../views/documents/ground-on.js';
import { isLater, rootOf } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { guardAfter, type Noted } from '../views/guards.js';
import { ofKinds, withCorrections } from '../views/parts.js';

type Placed = LogRecord<'hold-placed'>;

/**
 * What guards an animal, and what others made of it: something that the medical team saw and that is seen again to last
 * less, a hold of theirs that another lifted or took back, and what ends before it begins.
 */
export const guardFlags = (
  { id, name }: Pick<Animal, 'id' | 'name'>,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): readonly Raised[] =>
  flagsOf(
    unlikely(standing),
    guarded(seenOf(noted(standing), ground)),
    guarding(standing),
    holdsAsWritten(records),
    ground,
    id,
    name,
  );

const guarding = ofKinds('hold-placed', 'hold-lifted');
const holdsAsWritten = withCorrections('hold-placed');
const noted = ofKinds('observation-noted');

const flagsOf = derived(
  (
    spans: readonly LogRecord[],
    guarded: readonly Guarded[],
    standing: readonly LogRecord[],
    records: readonly LogRecord[],
    ground: Ground,
    id: AnimalId,
    name: string,
  ): readonly Raised[] => {
    const animal = { id, name };
    return [
      ...ofSpans(spans, id, name).flat(),
      ...againstGuards(animal, guarded, ground),
      ...liftedByOthers(animal, records, standing, ground),
    ];
  },
);

/** What the days of one observation or hold have to show by themselves. */
const ofSpans = eachOf((record: LogRecord, id: AnimalId, name: string): readonly Raised[] =>
  raisedBy({ id, name }, (raise) => {
    if (isOfLater(record)) raise('observed-ahead', 'stop', record, deskAndMedical, aheadOf(record));
    const [from, until] = spanOf(record);
    if (from === null || until === null || until >= from) return;
    raise('ends-before', 'stop', record, deskAndMedical, { from: { date: from }, until: { date: until } });
  }),
);

/** Of a day to come, or over before it begins. */
const unlikely = partBy<LogRecord, LogRecord>((record): record is LogRecord => {
  const [from, until] = spanOf(record);
  return isOfLater(record) || (from !== null && until !== null && until < from);
});

/** An observation of a day that was still to come when it was noted, by the clock of whoever noted it. */
const isOfLater = (record: LogRecord): record is Noted =>
  record.kind === 'observation-noted' &&
  record.body.on > dayOfInstant(record.said?.happenedAt ?? record.happenedAt, record.zone);

const aheadOf = ({ body: { code, on } }: Noted) => ({ what: code, on: { date: on } });

function spanOf({ kind, body }: LogRecord): readonly [CalendarDate | null, CalendarDate | null] {
  if (kind === 'observation-noted') return [body.on, body.until];
  return kind === 'hold-placed' ? [body.from, body.until] : [null, null];
}

type Who = Pick<Animal, 'id' | 'name'>;

/** An observation, and what the medical team saw before it and that stood. */
type Guarded = Seen & { readonly before: Noted };
const guarded = partBy((one: Seen): one is Guarded => one.before !== undefined);

/** Each of them beside the other. */
function againstGuards(animal: Who, guarded: readonly Guarded[], ground: Ground): Raised[] {
  const [shorter, gone]: [Raised[], Raised[]] = [[], []];
  for (const { record, before } of guarded) {
    shorter.push(...shortened(animal, record, before, ground));
    gone.push(...lifted(animal, record, before, ground));
  }
  return [...shorter, ...gone];
}

function shortened(animal: Who, record: Noted, before: Noted, ground: Ground): Raised[] {
  const { code, state, until } = record.body;
  if (state !== 'present' || until === null || isMedical(ground, record)) return [];
  const end = before.body.until;
  if (end !== null && (end <= until || end < record.body.on)) return [];
  const values = {
    what: code,
    person: { person: record.by },
    noted: { person: before.by },
    until: { date: until },
    stands:
      end === null ? said('flag.guard-shortened.open') : said('flag.guard-shortened.until', { until: { date: end } }),
  };
  return [ofMedical('guard-shortened', animal, before, record, values)];
}

/** What the medical team saw, and somebody else no more: it stands until they say otherwise. */
function lifted(animal: Who, record: Noted, before: Noted, ground: Ground): Raised[] {
  if (record.body.state !== 'absent' || before.body.on > record.body.on) return [];
  if (guardAfter(ground, record, before) === undefined) return [];
  const values = {
    what: record.body.code,
    person: { person: record.by },
    noted: { person: before.by },
  };
  return [ofMedical('guard-lifted', animal, before, record, values)];
}

function liftedByOthers(
  animal: Who,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
): Raised[] {
  const find = (id: string) => records.find((record) => record.id === id);
  const holds = records.filter(
    (record): record is Placed =>
      record.kind === 'hold-placed' && rootOf(record, find) === record && isMedical(ground, record),
  );
  return holds.flatMap((hold): Raised[] => {
    const lifts = standing.filter((record) => record.kind === 'hold-lifted' && record.body.hold === hold.id);
    const corrections = records
      .filter((record) => record !== hold && rootOf(record, find) === hold)
      .sort((a, b) => (isLater(a, b) ? 1 : -1));
    const last = corrections.at(-1);
    const lifting = lifts.some((one) => isMedical(ground, one)) ? undefined : lifts[0];
    const taker =
      lifting ?? (last !== undefined && !isMedical(ground, last) && !stillHolds(hold, last) ? last : undefined);
    if (taker === undefined) return [];
    const { until, note, code } = hold.body;
    if (until !== null && until < dayOf({ ...taker, happenedAt: taker.recordedAt })) return [];
    const values = {
      hold: note === '' ? code : note,
      person: { person: taker.by },
      placed: { person: hold.by },
    };
    return [ofMedical('hold-lifted-by-other', animal, hold, taker, values)];
  });
}

/** Another wording, a longer time or more schedules lift nothing. */
function stillHolds({ body }: Placed, other: LogRecord): boolean {
  if (other.kind !== 'hold-placed') return false;
  const { schedules, from, until } = other.body;
  const all =
    schedules === 'all' || (body.schedules !== 'all' && body.schedules.every((one) => schedules.includes(one)));
  return all && from <= body.from && (until === null || (body.until !== null && until >= body.until));
}

/** A stop that only the medical team's answer closes. */
const ofMedical = <C extends ToldCode>(
  code: C,
  animal: Who,
  about: LogRecord,
  taker: LogRecord,
  ...own: Own<C>
): Raised => ({
  ...aboutAnimal(code, animal.name, taker.id, own),
  severity: 'stop',
  animal: animal.id,
  about: about.id,
  raisedAt: taker.recordedAt,
  for: ['medical', 'supervisor'],
  by: taker.by,
  ...writerOf(taker),
  closedBy: 'medical',
});
