import type { Animal } from '../../../core/animal/animal.js';
import { chipTrust } from '../../../log/views/chips/chip-trust.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { useWorld } from '../../store/here.js';
import { State } from '../state.js';

/** Beside the chip on record, wherever an animal is headed: that another number was read and neither is trusted. */
export function ChipTrust({ animal }: { animal: Animal }) {
  const { shelter } = useWorld();
  const two = chipTrust(animal, shelter.answers);
  if (two === null) return null;
  return (
    <div>
      <State tone="stop">{say('parts.chip-not-trusted', { other: chipText(two.other) })}</State>
    </div>
  );
}
