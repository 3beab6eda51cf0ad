import type { LotId } from '../../../core/ids.js';
import { expiresBefore } from '../../../log/prepare/lots-of-labels.js';
import type { Lot } from '../../../log/views/shelter.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Notice } from '../../parts/state.js';
import { namesIn } from '../../ribbon/named.js';
import { useRound } from '../around/use-round.js';

/** Why the card does not offer the lot that expires first; nothing where it does. */
export function FirstToExpire({ lot, onTake }: { lot: Lot; onTake: (id: LotId) => void }) {
  const { world, round, today } = useRound();
  const first = expiresBefore(world, round, lot, today);
  if (first === null) return null;
  const { lot: before, left, for: animals } = first;
  const names = namesIn(world);
  return (
    <Notice tone={animals.length === 0 ? 'attention' : 'plain'}>
      {animals.length === 0
        ? say('round.lot.first-left-over', { lot: before.lotText, left })
        : say('round.lot.first-is-for', { lot: before.lotText, left, animals: { list: animals.map(names) } })}{' '}
      <Act size="mid" onAct={() => onTake(before.id)}>
        {say('round.lot.it-is-labelled', { lot: before.lotText })}
      </Act>
    </Notice>
  );
}
