import { daysBetween } from '../../core/calendar.js';
import { deskAndMedical, type Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import { dayOf } from '../views/animal.js';
import { inOrderOfSaying, isSlipOfTheDay, rootOf } from '../views/effective.js';
import { correctionsIn } from '../views/parts.js';

type Dose = LogRecord<'treatment-given'>;

/** A dose as it was first written down, and the record by which it was taken away. */
export interface DoseBack {
  readonly dose: Dose;
  readonly taker: LogRecord;
}

/** Doses that somebody else withdrew or corrected away, or whoever gave them, on a later day. A slip of the day is none. */
export function dosesBack(records: readonly LogRecord[]): readonly DoseBack[] {
  if (correctionsIn(records).length === 0) return none;
  const byId = new Map<string, LogRecord>(records.map((record) => [record.id, record]));
  const find = (id: string) => byId.get(id);
  const corrections = records.filter((record) => record.corrects !== undefined && rootOf(record, find) !== record);
  const doses = new Set(corrections.map((record) => rootOf(record, find)));
  return [...doses].flatMap((dose): DoseBack[] => {
    if (dose.kind !== 'treatment-given' || dose.body.outcome === 'not-taken') return [];
    const versions = inOrderOfSaying(corrections.filter((record) => rootOf(record, find) === dose));
    const last = versions.at(-1);
    if (last === undefined || stillGiven(dose, last)) return [];
    const taker = versions.find((one) => !stillGiven(dose, one)) ?? last;
    return isSlipOfTheDay(dose, taker) ? [] : [{ dose, taker }];
  });
}

const none: readonly DoseBack[] = [];

/** Another amount, place or lot, or another time of the day, takes no dose away. */
const stillGiven = (dose: Dose, other: LogRecord): boolean =>
  other.kind === 'treatment-given' &&
  other.body.outcome !== 'not-taken' &&
  other.body.product === dose.body.product &&
  daysBetween(dayOf(dose), dayOf(other)) === 0;

/** The doses taken back that a later one was written down after. */
export const backBefore = (back: readonly DoseBack[], dose: LogRecord): readonly DoseBack[] =>
  back.filter((one) => one.dose.id !== dose.id && one.taker.recordedAt <= dose.recordedAt);

/** Tells the desk of doses that were taken back. */
export function doseBackFlags(back: readonly DoseBack[], nameOf: (product: string) => string, raise: Raise): void {
  for (const { dose, taker } of back) {
    raise('dose-taken-back', 'attention', { ...taker, id: dose.id } as LogRecord, deskAndMedical, {
      product: nameOf(dose.body.product),
      given: { person: dose.by },
      at: { instant: dose.happenedAt },
      person: { person: taker.by },
    });
  }
}
