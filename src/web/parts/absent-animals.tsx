import type { AnimalId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { useAbsent } from '../store/use-opened.js';
import { Act } from './act.js';
import { Notice } from './state.js';

/** Says that animals of this page have left and are not on this device, so that what stands here is not all; fetches them. */
export function AbsentAnimals({ animals }: { animals: readonly AnimalId[] }) {
  const { count, state, fetchAll } = useAbsent(animals);
  if (count === 0) return null;
  return (
    <Notice tone="attention" live="status">
      {say('parts.absent', { count })} {state === 'out-of-reach' ? `${say('parts.absent-out-of-reach')} ` : null}
      {state === 'fetching' ? (
        say('parts.fetching')
      ) : (
        <Act size="small" onAct={fetchAll}>
          {say('parts.absent-fetch', { count })}
        </Act>
      )}
    </Notice>
  );
}
