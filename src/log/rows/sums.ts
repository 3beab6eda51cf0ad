import type { AnimalId, LotId, RoundId } from '../../core/ids.js';
import type { ChipRow, FastClockRow, LotUseRow, NumberHolderRow, RoundAnimalRow, RunHolderRow } from '../read-rows.js';
import { isBefore } from '../views/fast-clocks.js';
import type { Lot, Shelter } from '../views/shelter.js';
import type { Facts } from './facts.js';
import { type LotSum, noUse } from './lot-sum.js';

/*
 * What the rows of all animals add up to (facts.ts). A device and the tests add them up in memory, here; a store that
 * speaks SQL has the database do it. What is then made of a sum is worked out in one place, for both.
 */

/** Lines of a round, and its doses of which no lot or no amount was written down. */
export interface RoundSum {
  readonly done: number;
  readonly notDone: number;
  readonly open: number;
  readonly abnormal: number;
  readonly noLot: number;
  readonly noAmount: number;
  readonly missingAt: string | null;
}
export const noLines: RoundSum = {
  done: 0,
  notDone: 0,
  open: 0,
  abnormal: 0,
  noLot: 0,
  noAmount: 0,
  missingAt: null,
};

/** An animal that has a chip on its record. */
export interface Carrier {
  readonly animal: AnimalId;
  readonly name: string;
  readonly since: string;
}

export interface Sums {
  readonly lots: ReadonlyMap<LotId, LotSum>;
  readonly rounds: ReadonlyMap<RoundId, RoundSum>;
  /** Who has which chip on record, by the code as it stands there; in the order of the animals' ids. */
  readonly carriers: ReadonlyMap<string, readonly Carrier[]>;
  /** Animals by the number of the chip on their record. */
  readonly numbers: ReadonlyMap<string, ReadonlySet<AnimalId>>;
  /** The first record of each device and day that a measured clock has put right, by a text of the two. */
  readonly clocks: ReadonlyMap<string, FastClockRow>;
  /** Who has a test under which name, in the order of the animals' ids. */
  readonly runs: ReadonlyMap<string, readonly RunHolderRow[]>;
  /** Who in care stands under which number of the shelter, in the same order. */
  readonly labels: ReadonlyMap<string, readonly NumberHolderRow[]>;
}

/** One animal's part of the sums. */
export interface Part {
  readonly id: AnimalId;
  readonly name: string;
  readonly facts: Facts;
  readonly chips: readonly ChipRow[];
}

/** Adds animals up one after the other; `sums` may be read at any time. */
export interface Adding {
  readonly add: (part: Part) => void;
  readonly sums: Sums;
}

export function adding(shelter: Pick<Shelter, 'lots' | 'fastClocks'>): Adding {
  const lots = new Map<LotId, LotSum>();
  const rounds = new Map<RoundId, RoundSum>();
  const carriers = new Map<string, Carrier[]>();
  const numbers = new Map<string, Set<AnimalId>>();
  const clocks = new Map<string, FastClockRow>();
  const runs = new Map<string, RunHolderRow[]>();
  const labels = new Map<string, NumberHolderRow[]>();
  const first = (row: FastClockRow): void => {
    const key = JSON.stringify([row.device, row.on]);
    const before = clocks.get(key);
    if (before === undefined || isBefore(row, before)) clocks.set(key, row);
  };
  for (const row of shelter.fastClocks) first(row);
  const add = ({ id, name, facts, chips }: Part): void => {
    for (const use of facts.lot_uses) {
      const lot = shelter.lots.get(use.lot as LotId);
      if (lot !== undefined) lots.set(lot.id, withUse(lots.get(lot.id) ?? noUse, use, lot));
    }
    for (const row of facts.round_animals) {
      const round = row.round as RoundId;
      rounds.set(round, withAnimal(rounds.get(round) ?? noLines, row));
    }
    for (const row of facts.fast_clocks) first(row);
    for (const row of facts.run_holders) {
      runs.set(row.run, [...(runs.get(row.run) ?? []), row].sort(byAnimal));
    }
    for (const row of facts.number_holders) {
      labels.set(row.number, [...(labels.get(row.number) ?? []), row].sort(byAnimal));
    }
    for (const { code, number, since } of chips) {
      const carrier = { animal: id, name, since };
      carriers.set(code, [...(carriers.get(code) ?? []), carrier].sort(byAnimal));
      numbers.set(number, (numbers.get(number) ?? new Set()).add(id));
    }
  };
  return { add, sums: { lots, rounds, carriers, numbers, clocks, runs, labels } };
}

/** In the order of the animals' ids, of which each is there once. */
export const byAnimal = (a: { readonly animal: string }, b: { readonly animal: string }): number =>
  a.animal < b.animal ? -1 : 1;

/** A use before the last count is in it already. */
function withUse(sum: LotSum, use: LotUseRow, { countedAt }: Lot): LotSum {
  const counts = use.at >= countedAt;
  return {
    used: sum.used + (counts ? use.pieces : 0),
    used_ul: sum.used_ul + (counts ? use.volume_ul : 0),
    testsRead: sum.testsRead + use.test_read,
    testsInvalid: sum.testsInvalid + use.test_invalid,
    lastInvalidAt: [sum.lastInvalidAt, use.invalid_at].reduce(latest, null),
  };
}

const withAnimal = (sum: RoundSum, row: RoundAnimalRow): RoundSum => ({
  done: sum.done + row.done,
  notDone: sum.notDone + row.not_done,
  open: sum.open + row.open,
  abnormal: sum.abnormal + row.abnormal,
  noLot: sum.noLot + row.no_lot,
  noAmount: sum.noAmount + row.no_amount,
  missingAt: [sum.missingAt, row.missing_at].reduce(earliest, null),
});

const latest = (a: string | null, b: string | null): string | null => (a === null ? b : b === null || a > b ? a : b);
const earliest = (a: string | null, b: string | null): string | null => (a === null ? b : b === null || a < b ? a : b);
