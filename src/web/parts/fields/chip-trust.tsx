import type { Animal } from '../../../core/animal/animal.js';
import { notTrusted } from '../../../told/chip-words.js';
import { useWorld } from '../../store/here.js';
import { State } from '../state.js';

/** Beside the chip on record, wherever an animal is headed: that another number was read and neither is trusted. */
export function ChipTrust({ animal }: { animal: Animal }) {
  const { shelter } = useWorld();
  const words = notTrusted(animal, shelter);
  if (words === null) return null;
  return (
    <div>
      <State tone="stop">{words}</State>
    </div>
  );
}
