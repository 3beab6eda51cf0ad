import { longestPlan_days } from '../../core/animal/follow-up.js';
import { addSpan, CalendarDate } from '../../core/calendar.js';
import type { AnimalId, RecordId } from '../../core/ids.js';
import { no, type Outcome, ok } from '../../core/said.js';
import type { BodyInput, Kind } from '../kinds/index.js';
import { type Draft, draft, type LogRecord } from '../record.js';

type At = string;
const of = (animal: AnimalId): string => `animal:${animal}`;

export function takeIn(animal: AnimalId, body: BodyInput<'animal-taken-in'>, at: At): Outcome<Draft[]> {
  if (body.born.earliest > body.born.latest) return no('log.birth-reversed');
  if (body.name.trim() === '' && body.label.trim() === '') return no('log.name-or-number');
  return ok([draft('animal-taken-in', of(animal), body, at)]);
}

export const describeAnimal = (animal: AnimalId, body: BodyInput<'animal-described'>, at: At): Draft[] => [
  draft('animal-described', of(animal), body, at),
];

type Moved = BodyInput<'animal-moved'>;

/** `from` is where the animal was by what the person saw when they began. */
export const moveAnimal = (
  animal: AnimalId,
  { section, kennel }: Pick<Moved, 'section' | 'kennel'>,
  to: Omit<Moved, 'from'>,
  at: At,
): Draft[] => [draft('animal-moved', of(animal), { ...to, from: { section, kennel } }, at)];

/** The kennel's sign was hung up there, or taken down there. */
export const setSign = (animal: AnimalId, body: BodyInput<'sign-set'>, at: At): Draft[] => [
  draft('sign-set', of(animal), body, at),
];

/** What the medical team says about a reactive test; their name goes with it. */
export const followUpTest = (animal: AnimalId, body: BodyInput<'test-followed-up'>, at: At): Draft[] => [
  draft('test-followed-up', of(animal), body, at),
];

export const letLeave = (animal: AnimalId, body: BodyInput<'animal-left'>, at: At): Draft[] => [
  draft('animal-left', of(animal), body, at),
];

export const weighAnimal = (animal: AnimalId, body: BodyInput<'animal-weighed'>, at: At): Draft[] => [
  draft('animal-weighed', of(animal), body, at),
];

export const noteObservation = (animal: AnimalId, body: BodyInput<'observation-noted'>, at: At): Draft[] => [
  draft('observation-noted', of(animal), body, at),
];

/** The furthest day of a hold, or of looking at it again, is that of any plan; whatever lasts longer is placed anew. */
const longestHold = { days: longestPlan_days };

export function placeHold(animal: AnimalId, body: BodyInput<'hold-placed'>, at: At): Outcome<Draft[]> {
  if (body.until !== null && body.until < body.from) return no('log.hold-ends-before-start');
  const { owner = null, recheckOn = null } = body;
  const last = addSpan(CalendarDate.parse(body.from), longestHold);
  if ((body.until !== null && body.until > last) || (recheckOn !== null && recheckOn > last)) {
    return no('log.hold-too-long', { date: { date: last } });
  }
  if (owner === null) return no('log.hold-needs-owner');
  if (body.until === null && recheckOn === null) return no('log.hold-needs-day');
  if (recheckOn !== null && recheckOn <= body.from) return no('log.hold-recheck-before-start');
  return ok([draft('hold-placed', of(animal), body, at)]);
}

export const liftHold = (animal: AnimalId, hold: RecordId, note: string, at: At): Draft[] => [
  draft('hold-lifted', of(animal), { hold, note }, at),
];

/**
 * Correct a record: a new one of the same or another kind on the same subject takes its place. The time of happening
 * is the corrected one's unless told otherwise.
 */
export function correct<K extends Kind>(
  old: Pick<LogRecord, 'id' | 'subject' | 'happenedAt'>,
  kind: K,
  body: BodyInput<K>,
  happenedAt: string = old.happenedAt,
): Draft[] {
  return [draft(kind, old.subject, body, happenedAt, old.id)];
}
