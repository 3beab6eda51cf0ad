import type { Animal } from '../../core/animal/animal.js';
import { lacksSecond } from '../../core/bedside/second-look.js';
import { ageDays, type CalendarDate, daysBetween } from '../../core/calendar.js';
import { lotsDiffer } from '../../core/point-of-care/kit.js';
import { said } from '../../core/said.js';
import type { LogRecord } from '../record.js';
import { dayOf, foldAnimal } from '../views/animal.js';
import { tooCleanFlags } from '../views/apart/keep-apart.js';
import { madeAfter } from '../views/device-order.js';
import { gateName, passedSaid } from '../views/doses/passed.js';
import { tooEarly } from '../views/due/due.js';
import { effective } from '../views/effective.js';
import type { Ground } from '../views/ground.js';
import { sectionOf } from '../views/shelter.js';
import { aheadValues, countsFromArrival } from './ahead-flags.js';
import { chipFlags } from './chip-flags.js';
import { backBefore, type DoseBack, doseBackFlags, dosesBack } from './dose-back-flags.js';
import { doseFlags } from './dose-flags.js';
import { entryFlags } from './entry-flags.js';
import { aboutAnimal, desk, deskAndMedical, type Raise, type Raised, writerOf } from './flag.js';
import { followUpFlags } from './follow-up-flags.js';
import { guardFlags } from './guard-flags.js';
import { markFlags, uncountedMarks } from './mark-flags.js';
import { observationBackFlags } from './observation-back-flags.js';
import { orderFlags } from './order-flags.js';
import { orderMissedFlags } from './order-missed-flags.js';
import { overFlags } from './over-flags.js';
import { placeFlags } from './place-flags.js';
import { runFlags } from './run-flags.js';
import { behindValues, cameInBehind } from './server-clock-flags.js';
import { sickFlags, weightAlarms } from './sick-flags.js';
import { stayFlags } from './stay-flags.js';
import { syringeFlags } from './syringe-flags.js';
import { openFlags, reactiveFlags } from './unsettled-flags.js';

/** What the lamp showed, and what was missed of an order, goes only with an answer of the medical team. */
const settledByMedical: readonly string[] = ['lamp-glow', 'lamp-unsure', 'order-missed'];

/**
 * What one animal's records, and the protocol's reading of them, have to show to a person. Depends on nothing but the
 * animal, its records, the ground and the day.
 */
export function animalFlags(
  animal: Animal,
  records: readonly LogRecord[],
  ground: Ground,
  today: CalendarDate,
): Raised[] {
  const standing = effective(records);
  const flags: Raised[] = [];
  const raise: Raise = (code, severity, record, roles, ...own) => {
    flags.push({
      ...aboutAnimal(code, animal.name, record.id, own),
      severity,
      animal: animal.id,
      about: record.id,
      raisedAt: record.happenedAt,
      for: roles,
      by: record.by,
      ...writerOf(record),
      ...(settledByMedical.includes(code) ? { closedBy: 'medical' } : {}),
    });
  };

  testFlags(animal, standing, raise);
  flags.push(...observationBackFlags(animal, records, ground), ...overFlags(animal, records, standing, ground));
  flags.push(...reactiveFlags(animal, ground, standing, today), ...markFlags(animal, standing));
  flags.push(...runFlags(animal, records, standing, ground), ...followUpFlags(animal, records, ground, standing));
  flags.push(...orderFlags(animal, records, standing), ...guardFlags(animal, records, standing, ground, raise));
  openFlags(animal, ground, standing, today, raise);
  const back = dosesBack(records);
  treatmentFlags(ground, standing, back, raise);
  doseBackFlags(back, (product) => productName(ground, product), raise);
  doseFlags(animal, records, standing, ground, raise);
  orderMissedFlags(animal, ground, standing, today, raise);
  syringeFlags(ground, standing, raise);
  placeFlags(ground, records, standing, raise);
  tooCleanFlags(animal, records, standing, ground, raise);
  sickFlags(animal, standing, today, raise);
  earlyFlags(animal, ground, standing, today, raise);
  earlyAfterBack(animal, ground, standing, back, today, raise);
  chipFlags(animal, records, ground, standing, raise);
  entryFlags(animal, standing, raise);
  stayFlags(animal, standing, today, raise);
  const behind = cameInBehind(records);
  if (behind !== null) raise('server-clock-back', 'attention', behind, desk, behindValues(behind));
  for (const record of standing) {
    if (daysBetween(today, dayOf(record)) > 0) raise('future', 'attention', record, desk);
    if (countsFromArrival(record)) raise('stamped-ahead', 'attention', record, desk, aheadValues(record));
    if (record.kind === 'animal-identified' && record.body.by === 'override') {
      raise('override', 'attention', record, desk, { reason: said(`override.${record.body.reason || 'other'}`) });
    }
    if (record.kind === 'animal-weighed' && isDoubtful(animal, record) && !weighedAgain(animal, record)) {
      const weight = { grams: record.body.grams };
      const days = ageDays(animal.born.latest, dayOf(record));
      if (isBeyondAge(animal, record)) {
        raise('weight-beyond-age', 'stop', record, deskAndMedical, { weight, age: { ageDays: Math.max(0, days) } });
      } else raise('weight-doubtful', 'attention', record, desk, { weight });
    }
  }
  const placed = animal.left === null ? placedNowhere(animal, ground, standing) : undefined;
  if (placed !== undefined) raise('no-section', 'attention', placed, desk);
  growthFlags(animal, standing, flags);
  // Twice on one day is one cause, not two.
  const twice = new Set(flags.filter((flag) => flag.code === 'given-twice').map((flag) => flag.about));
  return flags.filter((flag) => flag.code !== 'given-early' || !twice.has(flag.about));
}

/** What put an animal where no round goes: the move to a section that there is not, or the taking in without one. */
function placedNowhere(animal: Animal, ground: Ground, standing: readonly LogRecord[]): LogRecord | undefined {
  const takenIn = standing.find((record) => record.kind === 'animal-taken-in');
  if (animal.section === null) return takenIn;
  if (sectionOf(ground, animal.section) !== null) return undefined;
  return standing.findLast((record) => record.kind === 'animal-moved') ?? takenIn;
}

/** Alarms of the weight curve, about the weighing that raised them; a small loss of a grown cat is not one. */
function growthFlags(animal: Animal, standing: readonly LogRecord[], flags: Raised[]): void {
  if (animal.left !== null) return;
  for (const alarm of weightAlarms(animal, animal.weighings)) {
    const record = standing.find((one) => one.kind === 'animal-weighed' && one.happenedAt === alarm.at);
    if (record === undefined) continue;
    const code = `weight-${alarm.code}` as const;
    flags.push({
      key: `${code}:${record.id}`,
      code,
      severity: alarm.severity,
      animal: animal.id,
      about: record.id,
      raisedAt: record.happenedAt,
      for: deskAndMedical,
      why: alarm.why,
      by: record.by,
      ...writerOf(record),
    });
  }
}

/** By whoever weighed or by the record; one of a day without such an animal has a flag of its own. */
const isDoubtful = ({ weighings }: Animal, { id, body }: LogRecord<'animal-weighed'>): boolean =>
  body.doubtful || weighings.some(({ record, unasked }) => record === id && unasked === true);

/** Two weighings that agree on what no cat of its age weighs. */
const isBeyondAge = ({ weighings }: Animal, { id }: LogRecord): boolean =>
  weighings.some(({ record, beyondAge }) => record === id && beyondAge === true);

/** Weighed again within a day, not doubtful: the second weighing answers the first. */
const weighedAgain = (animal: Animal, record: LogRecord): boolean =>
  animal.weighings.some(
    (other) => !other.doubtful && other.at > record.happenedAt && daysBetween(dayOf(record), other.on) <= 1,
  );

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

function treatmentFlags(ground: Ground, standing: readonly LogRecord[], back: readonly DoseBack[], raise: Raise): void {
  const given = standing.filter((record) => record.kind === 'treatment-given');
  for (const [index, record] of given.entries()) {
    const { body } = record;
    const on = dayOf(record);
    const name = productName(ground, body.product);
    const before = given.slice(0, index).findLast((other) => sameTreatment(other.body, body));
    const again = backBefore(back, record).find(
      ({ dose }) => sameTreatment(dose.body, body) && daysBetween(dayOf(dose), on) === 0,
    );
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

const identifiedBefore = (standing: readonly LogRecord[], round: string, done: LogRecord): boolean =>
  standing.some(
    (record) => record.kind === 'animal-identified' && record.body.round === round && madeAfter(done, record),
  );

const productName = (ground: Ground, id: string): string =>
  ground.formulary?.products.find((product) => product.id === id)?.name ?? id;
