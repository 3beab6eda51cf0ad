import type { Animal, TestRun } from '../../../core/animal/animal.js';
import type { Clocked } from '../../../core/clocked.js';
import type { KitType } from '../../../core/dosing/formulary.js';
import type { PersonId, RoundId } from '../../../core/ids.js';
import type { RoundFacts } from '../round-facts.js';
import type { World } from '../world.js';
import { kitTypeNamed } from './test-runs.js';

/** A test whose clock runs: started on a round, not read and not given up. */
export interface RunningTest {
  readonly animal: Animal;
  readonly run: TestRun;
  readonly start: Clocked;
  readonly kit: KitType;
  readonly round: RoundId;
}

/** The tests that run on the rounds asked for, in no order. */
export function testsRunning(world: World, on: (round: RoundFacts) => boolean): RunningTest[] {
  const wanted = new Set([...world.shelter.rounds.values()].filter(on).map(({ id }) => id));
  if (wanted.size === 0) return [];
  return [...world.animals.values()].flatMap((animal) =>
    animal.runs.flatMap((run): RunningTest[] => {
      const { round, start, result } = run;
      const kit = kitTypeNamed(world.shelter, run.kitType);
      if (round === null || !wanted.has(round) || start === null || kit === null || result !== 'running') return [];
      return [{ animal, run, start, kit, round }];
    }),
  );
}

/** Rounds under way that a person treats or holds on. */
export const isOfTeam =
  (people: readonly (PersonId | null)[]) =>
  ({ begunAt, accepted, treater, holder }: RoundFacts): boolean =>
    begunAt !== null && accepted === null && (people.includes(treater) || (holder !== null && people.includes(holder)));
