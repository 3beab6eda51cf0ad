import type { Animal } from '../../core/animal/animal.js';
import { orderSchedule } from '../../core/animal/vet-order.js';
import { lacksSecond } from '../../core/bedside/second-look.js';
import { ageDays, type CalendarDate, daysBetween } from '../../core/calendar.js';
import { derived, growing, partBy } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import { type InParts, withRests } from '../../core/in-parts.js';
import { lotsDiffer } from '../../core/point-of-care/kit.js';
import { said } from '../../core/said.js';
import { desk, deskAndMedical, type Raise, type Raised, raisedBy, raising, writerOf } from '../flag.js';
import type { LogRecord } from '../record.js';
import { dayOf, foldAnimal } from '../views/animal.js';
import { tooCleanFlags } from '../views/apart/keep-apart.js';
import { madeAfter } from '../views/device-order.js';
import { gateName, passedSaid } from '../views/doses/passed.js';
import { tooEarly } from '../views/due/due.js';
import { effective } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { ofKinds } from '../views/parts.js';
import { sectionOf } from '../views/shelter.js';
import { weightAlarms } from '../views/sick.js';
import { followUpFlags } from './blood-tests/follow-up-flags.js';
import { markFlags, uncountedMarks } from './blood-tests/mark-flags.js';
import { runFlags } from './blood-tests/run-flags.js';
import { openFlags, reactiveFlags } from './blood-tests/unsettled-flags.js';
import { bornFlags } from './born-flags.js';
import { chipFlags } from './chip-flags.js';
import { aheadValues, behindValues, cameInBehind, countsFromArrival } from './clock-flags.js';
import { backBefore, type DoseBack, doseBackFlags, dosesBack } from './dose-back-flags.js';
import { doseFlags } from './dose-flags.js';
import { entryFlags } from './entry-flags.js';
import { guardFlags } from './guard-flags.js';
import { holdFlags } from './hold-flags.js';
import { observationBackFlags } from './observation-back-flags.js';
import { orderFlags } from './order-flags.js';
import { orderMissedFlags } from './order-missed-flags.js';
import { overFlags } from './over-flags.js';
import { placeFlags } from './place-flags.js';
import { biteFlags, sickFlags } from './sick-flags.js';
import { stayFlags } from './stay-flags.js';
import { syringeFlags } from './syringe-flags.js';

/**
 * What one animal's records, and the protocol's reading of them, have to show to a person. Depends on nothing but the
 * animal, its records, the ground and the day.
 */
export const animalFlags = withRests(function* (
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  today: CalendarDate,
): InParts<Raised[]> {
  const standing = effective(records);
  const flags: Raised[] = [];
  const raise = raising(animal, flags);
  const tests = testing(standing);
  testFlags(animal, tests, raise);
  flags.push(...observationBackFlags(animal, records, ground), ...overFlags(animal, records, over(standing), ground));
  flags.push(...reactiveFlags(animal, ground, tests, today), ...markFlags(animal, tests));
  yield;
  flags.push(...runFlags(animal, records, tests, ground), ...followUpFlags(animal, records, ground, tests));
  flags.push(
    ...orderFlags(animal, records, ordered(standing), ground),
    ...guardFlags(animal, records, standing, ground),
  );
  openFlags(animal, ground, openings(standing), today, raise);
  yield;
  const back = dosesBack(records);
  flags.push(...treatmentFlags(treatments(standing), back, ground, animal.id, animal.name));
  doseBackFlags(back, (product) => productName(ground, product), raise);
  yield;
  flags.push(...doseFlags(animal, records, standing, ground));
  yield;
  orderMissedFlags(animal, ground, ordered(standing), today, raise);
  syringeFlags(ground, syringes(standing), raise);
  placeFlags(ground, stays(records), stays(standing), raise);
  tooCleanFlags(animal, records, standing, ground, raise);
  yield;
  flags.push(...holdFlags(animal, ground, holds(standing), today, raise));
  sickFlags(animal, signs(standing), today, raise);
  biteFlags(signs(standing), raise);
  earlyFlags(animal, ground, standing, today, raise);
  if (back.length > 0) earlyAfterBack(animal, ground, standing, back, today, raise);
  yield;
  flags.push(...chipFlags(animal, records, ground, standing));
  yield;
  flags.push(...entryFlags(animal, standing));
  stayFlags(animal, stays(standing), today, raise);
  flags.push(...bornFlags(animal, records, ground));
  const behind = cameInBehind(late(records));
  if (behind !== null) raise('server-clock-back', 'attention', behind, desk, behindValues(behind));
  for (const record of aheadOf(standing, today)) raise('future', 'attention', record, desk);
  for (const record of arrived(standing)) raise('stamped-ahead', 'attention', record, desk, aheadValues(record));
  for (const record of identified(standing)) {
    if (record.body.by !== 'override') continue;
    raise('override', 'attention', record, desk, { reason: said(`override.${record.body.reason || 'other'}`) });
  }
  flags.push(...weightFlags(animal.weighings, weighings(standing), animal.born, animal.id, animal.name));
  const placed = animal.left === null ? placedNowhere(animal, ground, stays(standing)) : undefined;
  if (placed !== undefined) raise('no-section', 'attention', placed, desk);
  if (animal.left === null) {
    flags.push(...growthFlags(animal.weighings, weighings(standing), animal.born, ground.protocol, animal.id));
  }
  // Twice on one day is one cause, not two.
  const twice = new Set(flags.filter((flag) => flag.code === 'given-twice').map((flag) => flag.about));
  return twice.size === 0 ? flags : flags.filter((flag) => flag.code !== 'given-early' || !twice.has(flag.about));
});

const testing = ofKinds('sample-drawn', 'test-started', 'test-read', 'test-abandoned', 'test-followed-up');
const over = ofKinds('observation-noted', 'animal-taken-in', 'animal-moved', 'test-read');
const openings = ofKinds('observation-noted', 'animal-left', 'sample-drawn', 'test-started', 'test-read');
const ordered = ofKinds('order-written');
const treatments = ofKinds('treatment-given', 'animal-identified', 'order-written');
const syringes = ofKinds('treatment-given', 'sample-drawn');
const stays = ofKinds('animal-taken-in', 'animal-described', 'animal-moved', 'animal-left');
const holds = ofKinds('hold-placed');
const signs = ofKinds('observation-noted', 'treatment-not-given', 'test-abandoned');
const identified = ofKinds('animal-identified');
const weighings = ofKinds('animal-weighed');
const otherScale = partBy<LogRecord, LogRecord>(
  (record): record is LogRecord => record.kind === 'animal-weighed' && record.body.otherScale === true,
);
const late = partBy<LogRecord, LogRecord>((record): record is LogRecord => record.serverBehind_ms !== undefined);
const arrived = partBy<LogRecord, LogRecord>((record): record is LogRecord => countsFromArrival(record));

/** Records of days that are still to come. */
const aheadOf = growing<LogRecord, [CalendarDate], readonly LogRecord[]>(
  (standing, today) => standing.filter((record) => dayOf(record) > today),
  (before, { more }, _all, today) => (more.some((record) => dayOf(record) > today) ? undefined : before),
);

/**
 * Weights that are doubted, by whoever weighed or by the record, and that no other has answered; a stop where two agree
 * on what no cat of its age weighs, or on what is too far from the last weight. One that counts by another scale is told, too.
 */
const weightFlags = derived(
  (
    all: Animal['weighings'],
    standing: readonly LogRecord[],
    born: Animal['born'],
    id: AnimalId,
    name: string,
  ): readonly Raised[] => {
    const isAsked = all.some(({ doubtful }) => doubtful) || otherScale(standing).length > 0;
    if (!isAsked) return [];
    const judged = new Map(all.map((one) => [one.record, one]));
    return raisedBy({ id, name }, (raise) => {
      for (const record of standing) {
        if (record.kind !== 'animal-weighed') continue;
        const one = judged.get(record.id);
        // By whoever weighed or by the record; one of a day without such an animal has a flag of its own.
        const weight = { grams: record.body.grams };
        if (!record.body.doubtful && one?.unasked !== true) {
          if (record.body.otherScale === true)
            raise('weight-other-scale', 'attention', record, deskAndMedical, { weight });
          continue;
        }
        if (weighedAgain(all, record)) continue;
        if (one?.beyond === 'age') {
          const age = { ageDays: Math.max(0, ageDays(born.latest, dayOf(record))) };
          raise('weight-beyond-age', 'stop', record, deskAndMedical, { weight, age });
        } else if (one?.beyond === 'jump') {
          raise('weight-beyond-jump', 'stop', record, deskAndMedical, { weight });
        } else raise('weight-doubtful', 'attention', record, desk, { weight });
      }
    });
  },
);

/** What put an animal where no round goes: the move to a section that there is not, or the taking in without one. */
function placedNowhere(animal: Animal, ground: Ground, standing: readonly LogRecord[]): LogRecord | undefined {
  const takenIn = standing.find((record) => record.kind === 'animal-taken-in');
  if (animal.section === null) return takenIn;
  if (sectionOf(ground, animal.section) !== null) return undefined;
  return standing.findLast((record) => record.kind === 'animal-moved') ?? takenIn;
}

/** Alarms of the weight curve, about the weighing that raised them. */
const growthFlags = derived(
  (
    all: Animal['weighings'],
    standing: readonly LogRecord[],
    born: Animal['born'],
    protocol: Ground['protocol'],
    id: AnimalId,
  ): readonly Raised[] =>
    weightAlarms({ born }, all, { protocol }).flatMap((alarm): Raised[] => {
      const record = standing.find((one) => one.kind === 'animal-weighed' && one.happenedAt === alarm.at);
      if (record === undefined) return [];
      const code = `weight-${alarm.code}` as const;
      return [
        {
          key: `${code}:${record.id}`,
          code,
          severity: alarm.severity,
          animal: id,
          about: record.id,
          raisedAt: record.happenedAt,
          for: deskAndMedical,
          why: alarm.why,
          by: record.by,
          ...writerOf(record),
        },
      ];
    }),
);

/** Weighed again within a day, not doubtful: the second weighing answers the first. */
const weighedAgain = (all: Animal['weighings'], record: LogRecord): boolean =>
  all.some((other) => !other.doubtful && other.at > record.happenedAt && daysBetween(dayOf(record), other.on) <= 1);

function testFlags(animal: Animal, standing: readonly LogRecord[], raise: Raise): void {
  for (const run of animal.runs) {
    const read = standing.find((record) => record.id === run.readRecord);
    const start = standing.find((record) => record.id === run.startRecord);
    const kit = start?.kind === 'test-started' ? start.body : null;
    if (start !== undefined && kit !== null && lotsDiffer(kit.kitLot, kit.conjugateLot)) {
      raise('kit-lot-differs', 'stop', start, deskAndMedical, { kit: kit.kitLot, conjugate: kit.conjugateLot });
    }
    if (start !== undefined && kit?.waited !== undefined) {
      raise('blood-waited', 'attention', start, deskAndMedical, kit.waited);
    }
    if (read === undefined) continue;
    if (lacksSecond(run.readings)) raise('second-look-missing', 'attention', read, deskAndMedical);
    const lot = run.kitLot || said('desk.lot-unknown');
    // The marks are no result; what would be reactive has a flag of its own (markFlags).
    const isMark = uncountedMarks(run).some(({ record }) => record === read.id);
    if (run.result === 'invalid' && !isMark) raise('test-invalid', 'attention', read, desk, { lot });
    if (start !== undefined && kit !== null && (kit.kitLot === '' || kit.conjugateLot === '')) {
      raise('kit-lot-unknown', 'attention', start, deskAndMedical);
    }
    if (isMark) continue;
    if (run.untimed === true && run.result === 'not-valid') {
      raise('test-untimed', 'attention', read, desk, { lot });
    } else if (run.result === 'not-valid') {
      raise('test-not-valid', 'attention', read, desk, {
        lot,
        reason: said(`due.reason.test-${run.fault ?? 'outside-window'}`),
      });
    }
    if (run.result === 'abandoned')
      raise(start === undefined ? 'draw-unused' : 'test-abandoned', 'attention', read, desk);
  }
}

const treatmentFlags = derived(
  (
    standing: readonly LogRecord[],
    back: readonly DoseBack[],
    ground: Ground,
    id: AnimalId,
    name: string,
  ): readonly Raised[] => raisedBy({ id, name }, (raise) => raiseOfTreatments(ground, standing, back, raise)),
);

function raiseOfTreatments(
  ground: Ground,
  standing: readonly LogRecord[],
  back: readonly DoseBack[],
  raise: Raise,
): void {
  const given = standing.filter((record) => record.kind === 'treatment-given');
  const needed = asNeeded(standing);
  for (const [index, record] of given.entries()) {
    const { body } = record;
    const on = dayOf(record);
    const name = productName(ground, body.product);
    const same = (other: DoseBody): boolean => sameTreatment(other, body) && !eachForItsOwn(other, body, needed);
    const before = given.slice(0, index).findLast((other) => same(other.body));
    const again = backBefore(back, record).find(({ dose }) => same(dose.body) && daysBetween(dayOf(dose), on) === 0);
    if (again !== undefined && body.outcome !== 'not-taken') {
      raise('given-twice', 'stop', record, deskAndMedical, {
        product: name,
        first: { instant: again.dose.happenedAt },
        second: { instant: record.happenedAt },
      });
    } else if (before !== undefined && daysBetween(dayOf(before), on) < 1 && body.outcome !== 'not-taken') {
      raise('given-twice', 'stop', record, deskAndMedical, {
        product: name,
        first: { instant: before.happenedAt },
        second: { instant: record.happenedAt },
      });
    }
    const lot = body.lot === null ? undefined : ground.lots.get(body.lot);
    if (lot?.expires != null && on > lot.expires) {
      raise('expired-lot', 'attention', record, deskAndMedical, {
        product: name,
        lot: lot.lotText,
        date: { date: lot.expires },
      });
    }
    if (lot?.withdrawn?.why === 'recalled' || lot?.withdrawn?.why === 'stored-wrong') {
      raise('withdrawn-lot', 'stop', record, deskAndMedical, { product: name, lot: lot.lotText });
    }
    // A lot that nobody wrote down is counted once for the whole round (shelterFlags), not once for each dose.
    if (body.here && body.round !== null && body.lot === null && body.lotText !== '')
      raise('lot-unknown', 'attention', record, desk, { product: name, lot: body.lotText });
    if (body.volume_ul !== null && body.planned_ul !== null && body.volume_ul !== body.planned_ul) {
      const far = body.volume_ul >= 2 * body.planned_ul || 2 * body.volume_ul <= body.planned_ul;
      raise('other-amount', far ? 'stop' : 'attention', record, deskAndMedical, {
        product: name,
        given: { microlitres: body.volume_ul },
        planned: { microlitres: body.planned_ul },
      });
    }
    if (body.outcome !== 'taken') raise('not-all-taken', 'attention', record, deskAndMedical, { product: name });
    for (const passed of body.passed) {
      const values = { product: name, gate: gateName(passed.gate), reason: passedSaid(passed) };
      raise('gate-passed', 'attention', record, deskAndMedical, values, passed.gate);
    }
    if (body.round !== null && !identifiedBefore(standing, body.round, record)) {
      raise('not-identified', 'attention', record, desk, { product: name });
    }
  }
}

/** Doses that the protocol reads as not valid because they came too soon; one on the same day is flagged as twice. */
function earlyFlags(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  today: CalendarDate,
  raise: Raise,
): void {
  for (const early of tooEarly(animal, ground, today)) {
    const record = standing.find((one) => one.id === early.record);
    if (record?.kind !== 'treatment-given') continue;
    const product = productName(ground, record.body.product);
    raise('given-early', 'attention', record, deskAndMedical, { product, reason: early.why });
  }
}

/** The same with the doses that another had taken back before the next one was written down. */
function earlyAfterBack(
  animal: Animal,
  ground: Ground,
  standing: readonly LogRecord[],
  back: readonly DoseBack[],
  today: CalendarDate,
  raise: Raise,
): void {
  const doses = back.filter((one) => standing.some((record) => backBefore([one], record).length > 0));
  if (doses.length === 0) return;
  const others = standing.filter(({ id }) => !doses.some(({ dose }) => dose.id === id));
  const restored = foldAnimal(animal.id, [...others, ...doses.map(({ dose }) => dose)], ground);
  if (restored === null) return;
  const known = new Set(tooEarly(animal, ground, today).map(({ record }) => record));
  const after = others.filter((one) => !known.has(one.id) && backBefore(doses, one).length > 0);
  earlyFlags(restored, ground, after, today, raise);
}

const sameTreatment = (
  a: { readonly schedule: string | null; readonly product: string },
  b: { readonly schedule: string | null; readonly product: string },
): boolean => (a.schedule !== null && a.schedule === b.schedule) || a.product === b.product;

type DoseBody = LogRecord<'treatment-given'>['body'];

/**
 * Two doses of one order that are not the same one twice: each for its own time, or of an order as needed, whose distance
 * and most are judged by what it says itself (`given-order-too-soon`).
 */
const eachForItsOwn = (a: DoseBody, b: DoseBody, needed: ReadonlySet<string>): boolean =>
  a.schedule !== null &&
  a.schedule === b.schedule &&
  (needed.has(a.schedule) ||
    (a.dueAt != null && b.dueAt != null && (a.dueAt.on !== b.dueAt.on || a.dueAt.at !== b.dueAt.at)));

/** Names of the orders as needed. */
const asNeeded = (standing: readonly LogRecord[]): ReadonlySet<string> =>
  new Set(
    standing.flatMap((record) =>
      record.kind === 'order-written' && record.body.order.timing.is === 'as-needed' ? [orderSchedule(record.id)] : [],
    ),
  );

const identifiedBefore = (standing: readonly LogRecord[], round: string, done: LogRecord): boolean =>
  standing.some(
    (record) => record.kind === 'animal-identified' && record.body.round === round && madeAfter(done, record),
  );

const productName = (ground: Ground, id: string): string =>
  ground.formulary?.products.find((product) => product.id === id)?.name ?? id;
