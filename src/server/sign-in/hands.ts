import type { PersonId } from '../../core/ids.js';
import type { Standing } from '../../core/rights/standing.js';
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

/** Who wrote a record down: whoever held the device. */
const handOf = ({ by, writtenBy }: LogRecord): PersonId => writtenBy ?? by;

/**
 * Holds who wrote a record down against who was signed in on that device at that time, for records that come now and for
 * those of a batch that waited without the network. `apart` is told of what nobody can vouch for: it is kept beside the
 * log until a person has judged it.
 *
 * - In the own name of who is signed in here: with all that they may.
 * - In the name of another who had signed in on this very device: what a volunteer may, and what whoever is signed in now may
 *   themselves; the rest waits until that other is signed in here.
 * - What another device wrote, and this one sends again because the server has lost it: what whoever is signed in may
 *   themselves, no more. Each device that holds it brings it, so it comes with the first whose holder may.
 * - What takes a veterinarian: by their own hand, with a password given just now.
 */
export function asksHands(
  { signIns, shelter }: { readonly signIns: SignIns; readonly shelter: Shelter },
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
    if (kinds.some(takesVeterinarian)) {
      if (!own) return { code: 'record-hand-away', why: said('people.hand-away', { name: { person: hand } }) };
      const heard = record.by !== hand;
      if (!who.fresh && !heard) return { code: 'record-not-fresh', why: said('people.not-fresh') };
    }
    const here = record.device === who.session?.device;
    if (!own && !kinds.every((kind) => mayBring(who.has, kind, here))) {
      return { code: 'record-hand-away', why: said('people.hand-away', { name: { person: hand } }) };
    }
    return isElsewhere(signIns, shelter, record, hand)
      ? { code: 'record-not-allowed', why: said('people.not-own-animal') }
      : null;
  };
}

/** On the device itself the volunteer's rights of whoever held it go along; it was shared out for that. */
const mayBring = (has: readonly Standing[], kind: Kind, here: boolean): boolean =>
  mayAppend(here ? ['volunteer', ...has] : has, kind);

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
