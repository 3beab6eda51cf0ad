import { said } from '../../said.js';
import type { DueItem } from '../due.js';

/**
 * What to say when nobody knows how old an animal is and its age decides: the earlier of the two answers, so that it
 * is not left for weeks unseen, held until somebody has estimated the age, or only asked about where the protocol says
 * so. Weighing is never held. `asOldest` and `asYoungest` are the answers for the two ends of what is possible.
 */
export function whenAgeIsUnknown(
  item: DueItem,
  asOldest: DueItem,
  asYoungest: DueItem,
  protocolSays: 'hold' | 'ask',
): DueItem {
  const same =
    asOldest.status === asYoungest.status && asOldest.due === asYoungest.due && asOldest.dose === asYoungest.dose;
  const earlier = earlierOf(asOldest, asYoungest);
  if (same || earlier === null) return item;
  if (earlier.action === 'weigh') return earlier;
  if (protocolSays === 'ask') return { ...earlier, asks: [said('due.ask.age-unknown'), ...(earlier.asks ?? [])] };
  if (earlier.hold !== null) return earlier;
  return {
    ...earlier,
    status: 'on-hold',
    hold: { code: 'age-unknown', until: null, why: said('due.hold.age-unknown') },
  };
}

function earlierOf(a: DueItem, b: DueItem): DueItem | null {
  if (a.due === null) return b.due === null ? null : b;
  return b.due === null || a.due <= b.due ? a : b;
}
