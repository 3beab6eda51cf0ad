import type { Said } from '../../../core/said.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import type { BodyInput } from '../../../log/kinds/index.js';
import { carriersOf } from '../../../log/views/chips/carriers.js';
import { contradictions, meaningOfScan } from '../../../log/views/round/identity.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { sharedChip } from '../../../told/names.js';
import { signal } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { type Save, useSave } from '../../store/save.js';
import { useRound } from '../around/use-round.js';

/** What is kept of a chip that was read: the raw text, the number, and its class. */
export const foundOf = (reading: { readonly raw: string; readonly code: string; readonly class: string }) => ({
  raw: reading.raw.slice(0, 200),
  code: reading.code,
  class: reading.class,
});

/** Making sure of an animal answers every chip that was read on it before and was not its own. */
export const answersOf = (stop: Pick<AnimalStop, 'animal' | 'own'>): BodyInput<'animal-identified'>['answers'] =>
  contradictions(stop).map((scan) => scan.id);

export interface IdentityScan {
  readonly state: Save['state'];
  readonly save: Save['save'];
  /**
   * Takes a scan of the animal in the hands: writes it down, and says by sound whether it is the right one. Answers whether it
   * is on record.
   */
  readonly heard: (text: string, typed?: boolean) => Promise<boolean>;
}

/**
 * `onBad` is told the sentence when what came in is no whole chip number, or one that several animals have on record, and
 * null when it is neither.
 */
export function useIdentityScan(stop: AnimalStop, onBad: (why: Said | null) => void): IdentityScan {
  const { round, world } = useRound();
  const { state, save } = useSave();
  const read = useChipNumber();
  const { animal } = stop;
  const heard = async (text: string, typed = false): Promise<boolean> => {
    const reading = read(text);
    onBad(reading.ok ? null : reading.why);
    if (!reading.ok) {
      signal('stop');
      return false;
    }
    const { code } = reading.value;
    const at = now();
    const found = foundOf(reading.value);
    const meaning = meaningOfScan(animal, code, world);
    const what = { target: 'animal', occasion: 'identify', found, typed, told: meaning.is, round } as const;
    const scan = scanChip(animal.id, what, at);
    const carriers = carriersOf(world, code);
    if (meaning.is === 'match' && carriers.length > 1) {
      // It is this one's, and another's as well: it tells neither.
      signal('stop');
      onBad(sharedChip(code, carriers));
      return (await save(scanChip(animal.id, { ...what, told: null }, at))) !== null;
    }
    if (meaning.is === 'match') {
      const made = { round, by: 'chip' as const, compared: ['chip'], answers: answersOf(stop) };
      const saved = await save([...scan, ...identify(animal.id, made, at)]);
      if (saved !== null) signal('match');
      return saved !== null;
    }
    signal('stop');
    return (await save(scan)) !== null;
  };
  return { state, save, heard };
}
