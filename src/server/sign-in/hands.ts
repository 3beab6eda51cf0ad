import type { PersonId } from '../../core/ids.js';
import type { Names } from '../../core/people.js';
import { outranks, type Standing, standingsOf } from '../../core/rights/standing.js';
import { said } from '../../core/said.js';
import type { AskHand } from '../../log/admit.js';
import type { Kind } from '../../log/kinds/index.js';
import type { LogRecord } from '../../log/record.js';
import { subjectOf } from '../../log/record.js';
import type { Shelter } from '../../log/views/shelter.js';
import { mayAppend, takesVeterinarian } from '../../log/who-may.js';
import type { Apart, SignIns } from '../../store/private/sign-ins.js';
import { signInLimits } from './limits.js';
import type { WhoAsks } from './who-asks.js';

interface Around {
  readonly signIns: SignIns;
  readonly shelter: Shelter;
  /** Names and licences of people. */
  readonly signers: Names;
}

/** Who wrote a record down: whoever held the device. */
const handOf = ({ by, writtenBy }: LogRecord): PersonId => writtenBy ?? by;

/**
 * Holds who wrote a record down against who was signed in on that device at that time, for records that come now and for
 * those of a batch that waited without the network. `apart` is told of what nobody can vouch for: it is kept beside the
 * log until a person has judged it.
 *
 * - In the own name of who is signed in here: with all that they may.
 * - In the name of another who had signed in on this very device: what a volunteer may, and what whoever is signed in now may
 *   themselves, unless that other's word goes further than theirs; the rest waits until that other is signed in here.
 * - What another device wrote, and this one sends again because the server has lost it: what whoever is signed in may
 *   themselves, no more, and nothing of somebody whose word goes further. Each device that holds it brings it, so it comes
 *   with the first whose holder may.
 * - What takes a veterinarian: by their own hand, with a password given just now.
 */
export function asksHands(
  { signIns, shelter, signers }: Around,
  who: WhoAsks,
  apart: (record: LogRecord, why: Apart['why']) => void,
): AskHand {
  // Everybody signs in there with one tap: whose hand it was proves nothing, and nothing is held against it.
  if (shelter.demo) return () => null;
  return (record, kinds) => {
    const hand = handOf(record);
    if (who.device?.revokedAt != null || signIns.device(record.device)?.revokedAt != null) {
      // What it wrote before it was revoked may be all in order; that is for a person to say.
      apart(record, 'device-revoked');
      return { code: 'record-kept-apart', why: said('people.apart.device-revoked') };
    }
    if (!wasSignedIn(signIns, record, hand)) {
      apart(record, 'not-signed-in');
      return { code: 'record-kept-apart', why: said('people.apart.not-signed-in', { name: { person: hand } }) };
    }
    const own = hand === who.person?.id;
    if (takesAdministrator(signIns, record) && (isLast(signIns, record) || !who.has.includes('administrator'))) {
      return { code: 'record-not-allowed', why: said('people.administrator-by-another') };
    }
    if (kinds.some(takesVeterinarian)) {
      if (!own) return { code: 'record-hand-away', why: said('people.hand-away', { name: { person: hand } }) };
      const heard = record.by !== hand;
      if (!who.fresh && !heard) return { code: 'record-not-fresh', why: said('people.not-fresh') };
    }
    const here = record.device === who.session?.device;
    const theirs = standingOf(shelter, signers, signIns, hand);
    if (!own && !kinds.every((kind) => mayBring(who.has, kind, here, outranks(theirs, who.has)))) {
      return { code: 'record-hand-away', why: said('people.hand-away', { name: { person: hand } }) };
    }
    return isElsewhere(signIns, shelter, record, hand)
      ? { code: 'record-not-allowed', why: said('people.not-own-animal') }
      : null;
  };
}

/**
 * On the device itself the volunteer's rights of whoever held it go along; it was shared out for that. Beyond that nobody
 * brings what is said to be by somebody whose word goes further than their own: it would count as that other's word.
 */
function mayBring(has: readonly Standing[], kind: Kind, here: boolean, isOfHigher: boolean): boolean {
  if (here && mayAppend(['volunteer'], kind)) return true;
  return !isOfHigher && mayAppend(has, kind);
}

const standingOf = ({ people }: Shelter, signers: Names, signIns: SignIns, person: PersonId): readonly Standing[] => {
  const role = people.find(({ id }) => id === person)?.role;
  return role === undefined ? [] : standingsOf(role, signers.get(person)?.licence ?? '', signIns.administers(person));
};

/**
 * Holds what was kept apart against who takes it in: nobody takes in what takes a veterinarian but that veterinarian, by a
 * password given just now, and nobody what is said to be by somebody whose word goes further than their own.
 */
export function asksJudge({ signIns, shelter, signers }: Around, who: WhoAsks): AskHand {
  if (shelter.demo) return () => null;
  return (record, kinds) => {
    const hand = handOf(record);
    const away = { code: 'record-hand-away', why: said('people.hand-away', { name: { person: hand } }) } as const;
    if (kinds.some(takesVeterinarian)) {
      if (hand !== who.person?.id) return away;
      return who.fresh ? null : { code: 'record-not-fresh', why: said('people.not-fresh') };
    }
    if (hand === who.person?.id) return null;
    if (!kinds.every((kind) => mayAppend(who.has, kind))) return away;
    return outranks(standingOf(shelter, signers, signIns, hand), who.has) ? away : null;
  };
}

/** Who looks after sign-ins is taken off the list of those at work by another who does, or nobody could let people in. */
const takesAdministrator = (signIns: SignIns, record: LogRecord): boolean =>
  record.kind === 'person-described' && !record.body.active && signIns.administers(record.body.person);

const isLast = (signIns: SignIns, record: LogRecord): boolean =>
  record.kind === 'person-described' && signIns.administrators().every((one) => one === record.body.person);

/** By the record's own time, put right by what its device knew of its clock. */
function wasSignedIn(signIns: SignIns, { device, recordedAt, clock }: LogRecord, hand: PersonId): boolean {
  const slack = clock === undefined ? signInLimits.clockUnknown_ms : signInLimits.clockKnown_ms;
  const at = Date.parse(recordedAt) - (clock?.ahead_ms ?? 0);
  return signIns
    .signInsOf(device, hand)
    .some(
      ({ since, until }) =>
        at >= Date.parse(since) - slack && (until === null || at <= Date.parse(until) + signInLimits.clockKnown_ms),
    );
}

/** A foster home writes about the animals that are with it. */
function isElsewhere(signIns: SignIns, { people }: Shelter, record: LogRecord, hand: PersonId): boolean {
  if (people.find(({ id }) => id === hand)?.role !== 'foster') return false;
  const { type, id } = subjectOf(record);
  return type === 'animal' && !signIns.homeOf(hand).some((animal) => animal === id);
}
