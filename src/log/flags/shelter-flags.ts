import { rankOrder } from '../../core/biosecurity/section.js';
import { addDays, type CalendarDate, dayOfInstant, daysBetween } from '../../core/calendar.js';
import type { AnimalId, RecordId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import { made, type SayValue, type SayValues, type ValuesOf } from '../../core/said.js';
import { desk, deskAndMedical, type Raised, type ToldCode } from '../flag.js';
import type { LogRecord } from '../record.js';
import { type LotSum, leftOf } from '../rows/lot-sum.js';
import type { Carrier, RoundSum } from '../rows/sums.js';
import type { RoundFacts } from '../views/round-facts.js';
import { type Lot, type Shelter, sectionOf } from '../views/shelter.js';
import { aheadFlags } from './clock-flags.js';
import { noneInForceFlags, retiredFlags } from './in-force-flags.js';
import { roleFlags } from './role-flags.js';

/** Days before expiry from which a lot is pointed out; our choice, no source. */
const soonDays = 14;

/*
 * What concerns more than one animal, each from its own part of the shelter and from what all animals add up to (sums.ts):
 * the same functions for a world in memory and for a store that has only the sums.
 */

/** What hangs on the shelter as a whole. */
export const flagsOfShelter = (shelter: Shelter): Raised[] => [
  ...putBack(shelter),
  ...aheadFlags(shelter),
  ...noneInForceFlags(shelter),
  ...roleFlags(shelter),
  ...retiredFlags(shelter),
];

export function flagsOfLot(lot: Lot, sum: LotSum, today: CalendarDate): Raised[] {
  return [...(lot.withdrawn === null ? stockFlags(lot, leftOf(lot, sum), today) : []), ...failingKits(lot, sum)];
}

function stockFlags(lot: Lot, left: number, today: CalendarDate): Raised[] {
  const { lotText: text, expires } = lot;
  if (left < 0) {
    const values = { lot: text, count: -left };
    return [raised('lot-below-zero', `${lot.id}:${lot.countedAt}`, 'attention', lot.countedAt, desk, values)];
  }
  if (expires === null || left === 0) return [];
  const values = { lot: text, date: { date: expires } };
  if (today > expires) {
    const at = `${addDays(expires, 1)}T00:00:00.000Z`;
    return [raised('lot-expired', lot.id, 'attention', at, desk, values)];
  }
  const days = daysBetween(today, expires);
  // Syringes made ready keep for hours: they are always about to be over.
  if (lot.prepared !== null || days > soonDays) return [];
  const at = `${addDays(expires, -soonDays)}T00:00:00.000Z`;
  return [raised('lot-expires-soon', lot.id, 'attention', at, desk, { ...values, days, left })];
}

/** Two failed tests of one lot within its first 40: our threshold, no source; the desk decides. */
function failingKits(lot: Lot, { testsRead: runs, testsInvalid: failed, lastInvalidAt }: LotSum): Raised[] {
  if (failed < 2 || failed * 20 <= runs) return [];
  const values = { lot: lot.lotText, failed, runs };
  const at = lastInvalidAt ?? lot.receivedAt;
  return [raised('kit-lot-fails', `${lot.id}:${failed}`, 'attention', at, deskAndMedical, values)];
}

export function flagsOfRound(
  round: RoundFacts,
  shelter: Pick<Shelter, 'sections' | 'zone'>,
  today: CalendarDate,
): Raised[] {
  const flags: Raised[] = [];
  let worst = -1;
  for (const visit of round.visits) {
    const section = sectionOf(shelter, visit.section);
    if (section === null) continue;
    const rank = rankOrder(section.rank);
    if (rank < worst) {
      const values = { section: section.name, reason: visit.wentBackBecause };
      flags.push(
        raised('went-back', visit.record, 'attention', visit.enteredAt, desk, values, { record: visit.record }),
      );
    }
    worst = Math.max(worst, rank);
  }
  if (round.begunAt !== null && round.handedBack === null && dayOfInstant(round.begunAt, shelter.zone) < today) {
    flags.push(
      raised('not-handed-back', round.id, 'attention', round.begunAt, desk, { date: { date: round.plan.on } }),
    );
  }
  return flags;
}

/** Doses of a round without a lot or an amount: one flag for each round, since a sheet leaves the same out in every line. */
export function flagsOfDoses({ id, plan }: RoundFacts, { noLot, noAmount, missingAt }: RoundSum): Raised[] {
  if (missingAt === null) return [];
  const values = { date: { date: plan.on }, lots: noLot, amounts: noAmount };
  return [raised('not-written-down', `${id}:${noLot}:${noAmount}`, 'attention', missingAt, desk, values)];
}

/** One number on the records of several animals. */
/** `carriers`: everybody who has the number on record, also those that a device knows from the index of all chips only. */
export function flagsOfChip(
  code: string,
  carriers: readonly (Pick<Carrier, 'since'> & { readonly name: SayValue })[],
): Raised[] {
  if (carriers.length < 2) return [];
  const last = carriers
    .map(({ since }) => since)
    .sort()
    .at(-1);
  const animals = { list: carriers.map(({ name }) => name) };
  return [raised('chip-shared', code, 'stop', last ?? '', deskAndMedical, { chip: code, animals })];
}

/** An animal with records that nobody has taken in. */
export function unknownAnimal(id: AnimalId, records: readonly LogRecord[]): Raised[] {
  const first = records.map((record) => record.happenedAt).sort()[0];
  // None of them can be read: that is told elsewhere.
  if (first === undefined) return [];
  return [raised('unknown-animal', id, 'attention', first, desk, { animal: id, count: records.length })];
}

function raised<C extends ToldCode>(
  code: C,
  about: string,
  severity: Raised['severity'],
  raisedAt: string,
  roles: readonly Role[],
  values: ValuesOf<`flag.${C}`>,
  more: { record?: RecordId } = {},
): Raised {
  return {
    key: `${code}:${about}`,
    code,
    severity,
    animal: null,
    about: more.record ?? null,
    raisedAt,
    for: roles,
    why: made(`flag.${code}`, values as SayValues),
    by: null,
  };
}

/** Records were put back from an older copy: one flag for each time, whoever has sent what was missing. */
function putBack(shelter: Shelter): Raised[] {
  const times = new Map<string, Shelter['sentAgain'][number][]>();
  for (const one of shelter.sentAgain) {
    const key = `${one.after}:${one.hash.slice(0, 16)}`;
    times.set(key, [...(times.get(key) ?? []), one]);
  }
  return [...times].map(([key, all]) => {
    const at = all.map((one) => one.at).sort()[0] ?? '';
    const senders = [...new Set(all.map((one) => one.by))].sort();
    const lost = Math.max(...all.map((one) => one.had - one.after));
    return raised('put-back', key, 'stop', at, deskAndMedical, {
      lost,
      names: { list: senders.map((person) => ({ person })) },
    });
  });
}
