import { type Kysely, sql } from 'kysely';
import { AnimalId, LotId, RoundId } from '../../core/ids.js';
import type { FastClockRow, NumberHolderRow, RunHolderRow } from '../../log/read-rows.js';
import type { LotSum } from '../../log/rows/lot-sum.js';
import { byAnimal, type Carrier, type RoundSum } from '../../log/rows/sums.js';
import { isBefore } from '../../log/views/fast-clocks.js';
import type { Lot, Shelter } from '../../log/views/shelter.js';
import type { Database } from './tables.js';

/*
 * What the rows of all animals add up to, added up by the database: the same as log/rows/sums.ts does in memory. Some
 * databases give sums as text.
 */

export async function lotSum(db: Kysely<Database>, { id, countedAt }: Lot): Promise<LotSum> {
  const since = (column: 'pieces' | 'volume_ul') =>
    sql<number>`coalesce(sum(case when ${sql.ref('at')} >= ${countedAt} then ${sql.ref(column)} else 0 end), 0)`;
  const { used, used_ul, read, invalid, invalid_at } = await db
    .selectFrom('lot_uses')
    .select([
      since('pieces').as('used'),
      since('volume_ul').as('used_ul'),
      sql<number>`coalesce(sum(test_read), 0)`.as('read'),
      sql<number>`coalesce(sum(test_invalid), 0)`.as('invalid'),
      sql<string | null>`max(invalid_at)`.as('invalid_at'),
    ])
    .where('lot', '=', id)
    .executeTakeFirstOrThrow();
  return {
    used: Number(used),
    used_ul: Number(used_ul),
    testsRead: Number(read),
    testsInvalid: Number(invalid),
    lastInvalidAt: invalid_at,
  };
}

export async function roundSums(
  db: Kysely<Database>,
  rounds: readonly string[],
): Promise<ReadonlyMap<RoundId, RoundSum>> {
  if (rounds.length === 0) return new Map();
  const rows = await db
    .selectFrom('round_animals')
    .select(({ fn }) => [
      'round',
      fn.sum<number>('done').as('done'),
      fn.sum<number>('not_done').as('not_done'),
      fn.sum<number>('open').as('open'),
      fn.sum<number>('abnormal').as('abnormal'),
      fn.sum<number>('no_lot').as('no_lot'),
      fn.sum<number>('no_amount').as('no_amount'),
      fn.min('missing_at').as('missing_at'),
    ])
    .where('round', 'in', [...rounds])
    .groupBy('round')
    .execute();
  return new Map(
    rows.map((row) => [
      RoundId.parse(row.round),
      {
        done: Number(row.done),
        notDone: Number(row.not_done),
        open: Number(row.open),
        abnormal: Number(row.abnormal),
        noLot: Number(row.no_lot),
        noAmount: Number(row.no_amount),
        missingAt: row.missing_at,
      },
    ]),
  );
}

export async function carriersOf(db: Kysely<Database>, code: string): Promise<Carrier[]> {
  const rows = await db
    .selectFrom('chips')
    .innerJoin('animals', 'animals.animal', 'chips.animal')
    .select(['chips.animal', 'chips.since', 'animals.name'])
    .where('chips.code', '=', code)
    .execute();
  return rows.map(({ animal, since, name }) => ({ animal: AnimalId.parse(animal), since, name })).sort(byAnimal);
}

/** Who has a test under a name, in the order of the animals' ids. */
export async function holdersOf(db: Kysely<Database>, run: string): Promise<RunHolderRow[]> {
  const rows = await db.selectFrom('run_holders').selectAll().where('run', '=', run).execute();
  return rows.sort(byAnimal);
}

/** Who in care stands under a number of the shelter, in the same order. */
export async function underNumber(db: Kysely<Database>, number: string): Promise<NumberHolderRow[]> {
  const rows = await db.selectFrom('number_holders').selectAll().where('number', '=', number).execute();
  return rows.sort(byAnimal);
}

/** The first record of a device and day that its measured clock has put right; null when there is none any more. */
export async function firstFast(
  db: Kysely<Database>,
  shelter: Shelter,
  { device, on }: Pick<FastClockRow, 'device' | 'on'>,
): Promise<FastClockRow | null> {
  const own = shelter.fastClocks.filter((row) => row.device === device && row.on === on);
  const rows = await db
    .selectFrom('fast_clocks')
    .selectAll()
    .where('device', '=', device)
    .where('on', '=', on)
    .execute();
  return [...own, ...rows].reduce<FastClockRow | null>(
    (first, row) => (first === null || isBefore(row, first) ? row : first),
    null,
  );
}

export const lotsNamed = (shelter: Shelter, ids: Iterable<string>): Lot[] =>
  [...ids].flatMap((id) => shelter.lots.get(LotId.parse(id)) ?? []);
