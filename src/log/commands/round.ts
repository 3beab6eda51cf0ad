import { rankOrder } from '../../core/biosecurity/section.js';
import type { KitType } from '../../core/dosing/formulary.js';
import type { AnimalId, RoundId, RunId, ScheduleId } from '../../core/ids.js';
import { lotsMatch } from '../../core/point-of-care/kit.js';
import { no, type Outcome, ok, type Said } from '../../core/said.js';
import type { BodyInput } from '../kinds/index.js';
import { type Draft, draft } from '../record.js';
import type { RoundFacts } from '../views/round-facts.js';
import { type Shelter, sectionOf, whyNoDocuments } from '../views/shelter.js';

type At = string;
const of = (animal: AnimalId): string => `animal:${animal}`;

/** Lay a round down. Needs the signed protocol: only a signed one drives rounds. */
export function planRound(
  shelter: Shelter,
  round: RoundId,
  body: BodyInput<'round-planned'>,
  at: At,
): Outcome<Draft[]> {
  const why = whyNoDocuments(shelter);
  if (why !== null) return { ok: false, why };
  if (body.sections.length === 0) return no('log.round-needs-section');
  if (body.treater === body.holder) return no('log.two-people');
  return ok([draft('round-planned', `round:${round}`, body, at)]);
}

export const beginRound = (round: RoundId, at: At): Draft[] => [draft('round-begun', `round:${round}`, {}, at)];

export const changeTeam = (round: RoundId, body: BodyInput<'team-changed'>, at: At): Draft[] => [
  draft('team-changed', `round:${round}`, body, at),
];

/** A visit to a cleaner section after a sicker one asks for a reason; it is recorded, not refused, once given. */
export function enterSection(
  shelter: Shelter,
  round: RoundFacts,
  body: BodyInput<'section-entered'>,
  at: At,
): Outcome<Draft[]> {
  const section = sectionOf(shelter, body.section);
  if (section === null) return no('log.no-such-section', { section: body.section });
  const worst = round.visits
    .map((visit) => sectionOf(shelter, visit.section))
    .reduce((most, visited) => Math.max(most, visited === null ? -1 : rankOrder(visited.rank)), -1);
  const back = rankOrder(section.rank) < worst;
  if (back && (body.wentBackBecause ?? '').trim() === '') return no('log.going-back', { section: section.name });
  return ok([draft('section-entered', `round:${round.id}`, body, at)]);
}

/** All running tests of the section are read before it is left. */
export function leaveSection(
  round: RoundId,
  body: BodyInput<'section-left'>,
  testsRunning: number,
  at: At,
): Outcome<Draft[]> {
  if (testsRunning > 0) return no('log.tests-running', { count: testsRunning });
  return ok([draft('section-left', `round:${round}`, body, at)]);
}

/** Fresh gloves for both people, before one animal. */
export const changeGloves = (round: RoundId, body: BodyInput<'gloves-changed'>, at: At): Draft[] => [
  draft('gloves-changed', `round:${round}`, body, at),
];

export const identify = (animal: AnimalId, body: BodyInput<'animal-identified'>, at: At): Draft[] => [
  draft('animal-identified', of(animal), body, at),
];

export const scanChip = (animal: AnimalId, body: BodyInput<'chip-scanned'>, at: At): Draft[] => [
  draft('chip-scanned', of(animal), body, at),
];

export const implantChip = (animal: AnimalId, body: BodyInput<'chip-implanted'>, at: At): Draft[] => [
  draft('chip-implanted', of(animal), body, at),
];

export const discardChip = (animal: AnimalId, body: BodyInput<'chip-discarded'>, at: At): Draft[] => [
  draft('chip-discarded', of(animal), body, at),
];

export const give = (animal: AnimalId, body: BodyInput<'treatment-given'>, at: At): Draft[] => [
  draft('treatment-given', of(animal), body, at),
];

export const notGiven = (animal: AnimalId, body: BodyInput<'treatment-not-given'>, at: At): Draft[] => [
  draft('treatment-not-given', of(animal), body, at),
];

/** Left for today by the touch of a button; `because` is what the protocol said, for the desk. */
export const leaveForToday = (animal: AnimalId, schedule: ScheduleId, because: Said, round: RoundId, at: At): Draft[] =>
  notGiven(animal, { schedule, reason: 'left-for-today', because, round }, at);

/** Not implanted, for a chip was read in the animal that is not on its record. */
export const tellOfChip = (animal: AnimalId, schedule: ScheduleId, round: RoundId, at: At): Draft[] =>
  notGiven(animal, { schedule, reason: 'chip-read', round }, at);

export const drawSample = (animal: AnimalId, body: BodyInput<'sample-drawn'>, at: At): Draft[] => [
  draft('sample-drawn', of(animal), body, at),
];

/**
 * Start the clock of a test. Kit and conjugate of different boxes are stopped here, before the kit is used; a start
 * that happened all the same comes in as a record and is flagged.
 */
export function startTest(animal: AnimalId, kit: KitType, body: BodyInput<'test-started'>, at: At): Outcome<Draft[]> {
  const match = lotsMatch(kit, body.kitLot, body.conjugateLot);
  if (!match.ok) return match;
  return ok([draft('test-started', of(animal), body, at)]);
}

/** What was seen, at the moment it was seen; every zone of the kit has to be answered. */
export function readTest(animal: AnimalId, kit: KitType, body: BodyInput<'test-read'>, at: At): Outcome<Draft[]> {
  const missing = kit.zones.filter((zone) => body.seen[zone.id] === undefined);
  if (missing.length > 0) return no('log.zones-missing', { zones: { list: missing.map((zone) => zone.name) } });
  return ok([draft('test-read', of(animal), body, at)]);
}

export const abandonTest = (animal: AnimalId, body: BodyInput<'test-abandoned'>, at: At): Draft[] => [
  draft('test-abandoned', of(animal), body, at),
];

/** Blood that waited too long is given up with the draw that takes its place, and not before: until then it is what there is. */
export const drawAgain = (
  animal: AnimalId,
  old: { readonly run: RunId; readonly note: string },
  body: BodyInput<'sample-drawn'>,
  at: At,
): Draft[] => [
  ...abandonTest(animal, { ...old, why: 'other', round: body.round ?? null }, at),
  ...drawSample(animal, body, at),
];

/** Hand the round back. Running tests must be read or abandoned first; unsent records are the caller's to count. */
export function handBack(
  round: RoundId,
  body: BodyInput<'handed-back'>,
  testsRunning: number,
  at: At,
): Outcome<Draft[]> {
  if (testsRunning > 0) return no('log.tests-running', { count: testsRunning });
  return ok([draft('handed-back', `round:${round}`, body, at)]);
}

export function acceptHandBack(round: RoundFacts, note: string, at: At): Outcome<Draft[]> {
  if (round.handedBack === null) return no('log.not-handed-back');
  if (round.accepted !== null) return no('log.already-accepted');
  return ok([draft('hand-back-accepted', `round:${round.id}`, { note }, at)]);
}
