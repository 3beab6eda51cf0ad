import type { KitType } from '../../core/dosing/formulary.js';
import type { RoundId } from '../../core/ids.js';
import { secondsUntil } from '../../core/point-of-care/kit.js';
import { type KitNeed, kitNeeds } from '../../log/bedside/kit-needs.js';
import { warmFrom } from '../../log/plan/kits.js';
import { sameShift_s } from '../../log/stock/kits-out.js';
import { roundView } from '../../log/views/round/round.js';
import type { World } from '../../log/views/world.js';
import { msOf } from '../clock.js';

/** Tests of one kind that have to leave the cold before a round, to be warm when it starts. */
export interface FridgeCall {
  /** The same call again has the same key, also when some of its tests are out in the meantime. */
  readonly key: string;
  readonly kit: KitType;
  /** How many are still in the cold. */
  readonly missing: number;
  readonly startsAt: string;
  /** Milliseconds since 1970 at which the last of them must come out. */
  readonly at_ms: number;
  /** Null for a round that has not been laid down. */
  readonly round: RoundId | null;
}

const callOf = (kit: KitType, missing: number, startsAt: string, round: RoundId | null): FridgeCall => ({
  key: `${round ?? 'not laid down'} ${kit.id} ${startsAt}`,
  kit,
  missing,
  startsAt,
  at_ms: msOf(startsAt) - kit.warmMinutes * 60_000,
  round,
});

/** The calls of a preparation, kit by kit; `missing` 0 where all are out. */
export const callsFor = (
  world: World,
  kits: readonly { readonly kit: KitType; readonly tests: number }[],
  startsAt: string,
  now: string,
): FridgeCall[] =>
  kits.map(({ kit, tests }) => callOf(kit, Math.max(0, tests - warmFrom(world, [kit.id], now).length), startsAt, null));

/** The calls of all rounds that are laid down and not begun. */
export function callsOfRounds(
  world: World,
  now: string,
  { today, clock }: Pick<Parameters<typeof kitNeeds>[0], 'today' | 'clock'>,
): FridgeCall[] {
  return [...world.shelter.rounds.values()].flatMap((facts) => {
    const { startsAt } = facts.plan;
    // A round that should have begun a shift ago is not waited for any more.
    const over = startsAt === null || secondsUntil(startsAt, now) > sameShift_s;
    const view = over ? null : roundView(world, facts.id);
    if (view === null || startsAt === null || view.state !== 'planned') return [];
    return kitNeeds({ view, world, here: now, today, clock }).map((need: KitNeed) =>
      callOf(need.kit, Math.max(0, need.wanted - need.out), startsAt, facts.id),
    );
  });
}
