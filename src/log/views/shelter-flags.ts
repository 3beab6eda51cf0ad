import { rankOrder } from '../../core/biosecurity/section.js';
import { addDays, type CalendarDate, dayOfInstant, daysBetween } from '../../core/calendar.js';
import type { AnimalId, RecordId } from '../../core/ids.js';
import type { Role } from '../../core/people.js';
import { type SayValue, said } from '../../core/said.js';
import { aheadFlags } from './ahead-flags.js';
import { ownerFlags } from './chip-owner.js';
import { effective } from './effective.js';
import type { Raised } from './flag.js';
import { lotUse } from './lots.js';
import { differingReadings } from './readings-differ.js';
import { type Shelter, sectionOf } from './shelter.js';
import { takenBackFlags } from './taken-back.js';
import { movedFlags } from './unsettled-flags.js';
import type { World } from './world.js';

const desk: readonly Role[] = ['supervisor'];
const deskAndMedical: readonly Role[] = ['supervisor', 'medical'];

/** Days before expiry from which a lot is pointed out; our choice, no source. */
const soonDays = 14;

/** What concerns lots, rounds, and several animals at once. */
export function shelterFlags(world: World, today: CalendarDate): Raised[] {
  return [
    ...lotFlags(world, today),
    ...roundFlags(world, today),
    ...sharedChips(world),
    ...unknownAnimals(world),
    ...putBack(world.shelter),
    ...notWrittenDown(world),
    ...movedFlags(world),
    ...ownerFlags(world),
    ...differingReadings(world),
    ...aheadFlags(world),
    ...takenBackFlags(world),
  ];
}

function raised(
  code: string,
  about: string,
  severity: Raised['severity'],
  raisedAt: string,
  roles: readonly Role[],
  values: Readonly<Record<string, SayValue>>,
  more: { animal?: AnimalId; record?: RecordId } = {},
): Raised {
  return {
    key: `${code}:${about}`,
    code,
    severity,
    animal: more.animal ?? null,
    about: more.record ?? null,
    raisedAt,
    for: roles,
    why: said(`flag.${code}`, values),
    by: null,
  };
}

function lotFlags(world: World, today: CalendarDate): Raised[] {
  const flags: Raised[] = [];
  const use = lotUse(world);
  for (const lot of world.shelter.lots.values()) {
    if (lot.withdrawn !== null) continue;
    const left = use.get(lot.id)?.left ?? lot.pieces;
    const lotText = lot.lotText;
    if (left < 0) {
      flags.push(
        raised('lot-below-zero', `${lot.id}:${lot.countedAt}`, 'attention', lot.countedAt, desk, {
          lot: lotText,
          count: -left,
        }),
      );
    }
    if (lot.expires === null || left <= 0) continue;
    if (today > lot.expires) {
      const at = `${addDays(lot.expires, 1)}T00:00:00.000Z`;
      flags.push(raised('lot-expired', lot.id, 'attention', at, desk, { lot: lotText, date: { date: lot.expires } }));
    } else if (lot.prepared === null && daysBetween(today, lot.expires) <= soonDays) {
      const at = `${addDays(lot.expires, -soonDays)}T00:00:00.000Z`;
      const days = daysBetween(today, lot.expires);
      flags.push(
        raised('lot-expires-soon', lot.id, 'attention', at, desk, {
          lot: lotText,
          date: { date: lot.expires },
          days,
          left,
        }),
      );
    }
  }
  for (const lot of world.shelter.lots.values()) {
    const runs = use.get(lot.id)?.testsRead ?? 0;
    const failed = use.get(lot.id)?.testsInvalid ?? 0;
    const at = use.get(lot.id)?.lastInvalidAt ?? lot.receivedAt;
    // Two failed tests of one lot within its first 40: our threshold, no source; the desk decides.
    if (failed >= 2 && failed * 20 > runs) {
      flags.push(
        raised('kit-lot-fails', `${lot.id}:${failed}`, 'attention', at, deskAndMedical, {
          lot: lot.lotText,
          failed,
          runs,
        }),
      );
    }
  }
  return flags;
}

function roundFlags(world: World, today: CalendarDate): Raised[] {
  const flags: Raised[] = [];
  for (const round of world.shelter.rounds.values()) {
    let worst = -1;
    for (const visit of round.visits) {
      const section = sectionOf(world.shelter, visit.section);
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
    if (
      round.begunAt !== null &&
      round.handedBack === null &&
      dayOfInstant(round.begunAt, world.shelter.zone) < today
    ) {
      flags.push(
        raised('not-handed-back', round.id, 'attention', round.begunAt, desk, { date: { date: round.plan.on } }),
      );
    }
  }
  return flags;
}

/** Doses of a round without a lot or an amount: one flag for each round, since a sheet leaves the same out in every line. */
function notWrittenDown(world: World): Raised[] {
  const missing = new Map<string, { lots: number; amounts: number; at: string }>();
  for (const [subject, records] of world.bySubject) {
    if (!subject.startsWith('animal:') || !records.some((record) => record.kind === 'treatment-given')) continue;
    for (const record of effective(records)) {
      if (record.kind !== 'treatment-given' || record.body.round === null || !record.body.here) continue;
      const { lot, lotText, volume_ul, pieces, round } = record.body;
      const noLot = lot === null && lotText === '';
      const noAmount = volume_ul === null && pieces === '';
      if (!noLot && !noAmount) continue;
      const { happenedAt } = record;
      const sofar = missing.get(round) ?? { lots: 0, amounts: 0, at: happenedAt };
      missing.set(round, {
        lots: sofar.lots + (noLot ? 1 : 0),
        amounts: sofar.amounts + (noAmount ? 1 : 0),
        at: sofar.at,
      });
    }
  }
  return [...world.shelter.rounds.values()].flatMap((round) => {
    const found = missing.get(round.id);
    if (found === undefined) return [];
    const { lots, amounts, at } = found;
    const values = { date: { date: round.plan.on }, lots, amounts };
    return [raised('not-written-down', `${round.id}:${lots}:${amounts}`, 'attention', at, desk, values)];
  });
}

function sharedChips(world: World): Raised[] {
  const owners = new Map<string, AnimalId[]>();
  for (const animal of world.animals.values()) {
    if (animal.chip !== null) owners.set(animal.chip.code, [...(owners.get(animal.chip.code) ?? []), animal.id]);
  }
  const flags: Raised[] = [];
  for (const [code, ids] of owners) {
    if (ids.length < 2) continue;
    const animals = ids.map((id) => world.animals.get(id)).filter((animal) => animal !== undefined);
    const last = animals
      .map((animal) => animal.history.find((event) => event.what === 'chipped')?.at ?? '')
      .sort()
      .at(-1);
    const names = { list: animals.map((animal) => animal.name) };
    flags.push(raised('chip-shared', code, 'stop', last ?? '', deskAndMedical, { chip: code, animals: names }));
  }
  return flags;
}

function unknownAnimals(world: World): Raised[] {
  return [...world.unknown].map((id) => {
    const records = world.bySubject.get(`animal:${id}`) ?? [];
    const first = records.map((record) => record.happenedAt).sort()[0] ?? '';
    return raised('unknown-animal', id, 'attention', first, desk, { animal: id, count: records.length });
  });
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
    const names = all.map((one) => shelter.people.find(({ id }) => id === one.by)?.name ?? one.by);
    const lost = Math.max(...all.map((one) => one.had - one.after));
    return raised('put-back', key, 'stop', at, deskAndMedical, { lost, names: { list: [...new Set(names)].sort() } });
  });
}
