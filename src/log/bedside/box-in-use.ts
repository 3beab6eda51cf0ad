import type { LotId, RoundId } from '../../core/ids.js';
import { byHappening } from '../views/effective.js';
import type { RoundView } from '../views/round/round.js';
import type { World } from '../views/world.js';
import type { LotChoice } from './lot-choices.js';
import { onRecord } from './on-record.js';

/**
 * The box that a round takes its syringes from: the one that its last record names, until that one is used up by the
 * count; else the first to expire. One that has gone below nothing was kept on knowingly, and stays. Null: none is here.
 */
export function boxInUse(
  world: World,
  view: Pick<RoundView, 'stops'>,
  round: RoundId,
  boxes: readonly LotChoice[],
): LotChoice | null {
  const named = new Map(boxes.map((box) => [box.lot.id, box]));
  const last = view.stops
    .flatMap(({ animals }) => animals)
    .flatMap(({ animal }) => onRecord(world, animal.id, round))
    .filter((record) => named.has(boxNamed(record) as LotId))
    .sort(byHappening)
    .at(-1);
  const before = last === undefined ? undefined : named.get(boxNamed(last) as LotId);
  const goesOn = before !== undefined && (before.fault === null || (before.fault === 'none-left' && before.left < 0));
  return goesOn ? before : (boxes.find(({ fault }) => fault !== 'withdrawn') ?? null);
}

const boxNamed = (record: ReturnType<typeof onRecord>[number]): LotId | null =>
  record.kind === 'treatment-given' || record.kind === 'sample-drawn' ? record.body.syringeLot : null;
