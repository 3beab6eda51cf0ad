import type { Animal } from '../../core/animal/animal.js';
import { derived, derivedInParts } from '../../core/derived.js';
import type { AnimalId } from '../../core/ids.js';
import type { InParts } from '../../core/in-parts.js';
import type { LogRecord } from '../record.js';
import type { Ground } from '../views/ground.js';
import type { World } from '../views/world.js';
import { type Facts, factsOf, noRounds, type PlannedRound, roundsPlanning } from './facts.js';
import { noUse } from './lot-sum.js';
import { chipRow } from './rows.js';
import { adding, type Sums } from './sums.js';

/** What one animal's records say of more than itself. The id is that of its records. */
const facts = derived(
  (
    records: readonly LogRecord[],
    animal: Animal | null,
    ground: Ground,
    rounds: readonly PlannedRound[],
    id: AnimalId,
  ): Facts => factsOf(id, animal, records, ground, rounds),
);

export function factsIn(world: World, id: AnimalId): Facts {
  const records = world.bySubject.get(`animal:${id}`) ?? noRecords;
  const rounds = roundsPlanning(world.shelter.rounds).get(id) ?? noRounds;
  return facts(records, world.animals.get(id) ?? null, world.ground, rounds, id);
}
const noRecords: readonly LogRecord[] = [];

/** What all animals add up to. */
export const sumsIn = derivedInParts(function* (world: World): InParts<Sums> {
  const { add, sums } = adding(world.shelter);
  for (const id of [...world.animals.keys(), ...world.unknown]) {
    yield;
    const animal = world.animals.get(id) ?? null;
    const chip = animal === null ? null : chipRow(animal);
    add({ id, name: animal?.name ?? '', facts: factsIn(world, id), chips: chip === null ? [] : [chip] });
  }
  return { ...sums, lots: withAway(sums.lots, world) };
});

/** With what animals took that are not here. */
function withAway(lots: Sums['lots'], { away, shelter }: World): Sums['lots'] {
  if (away.size === 0) return lots;
  const all = new Map(lots);
  for (const [id, { countedAt, pieces }] of away) {
    if (shelter.lots.get(id)?.countedAt !== countedAt) continue;
    const sum = all.get(id) ?? noUse;
    all.set(id, { ...sum, used: sum.used + pieces });
  }
  return all;
}
