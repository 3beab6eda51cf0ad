import { readChip } from '../../../core/chip/read-chip.js';
import type { Said } from '../../../core/said.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import type { AnimalStop } from '../../../log/views/round.js';
import { now } from '../../clock.js';
import { type Save, useSave } from '../../store/save.js';
import { meaningOfScan } from './identity.js';
import { signal } from './sound.js';
import { useRound } from './use-round.js';

/** What is kept of a chip that was read: the raw text, the number, and its class. */
export function foundOf(raw: string, code: string): { raw: string; code: string; class: string } {
  const read = readChip(code);
  return { raw: raw.slice(0, 200), code, class: read.ok ? read.value.class : '' };
}

export interface IdentityScan {
  readonly state: Save['state'];
  readonly save: Save['save'];
  /** Takes a scan of the animal in the hands: writes it down, and says by sound whether it is the right one. */
  readonly heard: (text: string, typed?: boolean) => Promise<void>;
}

/** `onBad` is told the sentence when what came in is no chip number, and null when it is one. */
export function useIdentityScan(stop: AnimalStop, onBad: (why: Said | null) => void): IdentityScan {
  const { round, world } = useRound();
  const { state, save } = useSave();
  const { animal } = stop;
  const heard = async (text: string, typed = false): Promise<void> => {
    const read = readChip(text);
    onBad(read.ok ? null : read.why);
    if (!read.ok) return;
    const { code } = read.value;
    const at = now();
    const found = foundOf(text, code);
    const scan = scanChip(animal.id, { target: 'animal', occasion: 'identify', found, typed, round }, at);
    const meaning = meaningOfScan(animal, code, world.animals.values());
    if (meaning.is === 'match') {
      const saved = await save([...scan, ...identify(animal.id, { round, by: 'chip', compared: ['chip'] }, at)]);
      if (saved !== null) signal('match');
      return;
    }
    signal('stop');
    await save(scan);
  };
  return { state, save, heard };
}
