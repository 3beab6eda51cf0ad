import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Animal } from '../../../core/animal/animal.js';
import type { AnimalId } from '../../../core/ids.js';
import { whereItIs } from '../../../log/bedside/scan-sentence.js';
import { identify, scanChip } from '../../../log/commands/round.js';
import { carriersOf } from '../../../log/views/chips/carriers.js';
import { carriedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { warningsOf } from '../../../log/views/chips/chip-warnings.js';
import type { SectionStop } from '../../../log/views/round/round.js';
import { nobodys, sharedChip } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { signal } from '../../alarm/sound.js';
import { now } from '../../clock.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { animalPath } from '../../parts/round-paths.js';
import { Notice } from '../../parts/state.js';
import { useChipNumber } from '../../parts/use-chip-number.js';
import { useScan } from '../../scan/use-scan.js';
import { useSave } from '../../store/save.js';
import { Trouble } from '../around/bits.js';
import { stopOf, useRound } from '../around/use-round.js';
import { answersOf, foundOf } from './identity-scan.js';
import { ScanAnswer } from './scan-answer.js';

type Section = SectionStop['section'];

interface Heard {
  readonly words: string;
  readonly raw: string;
  /** An animal that left whose chip it is. */
  readonly left: AnimalId | null;
}

interface ScanOpensProps {
  /** False where leaving the screen would cost something: then it only says whose the chip is. */
  readonly opens?: boolean;
  /** The section before whose door the team stands: said is whether the animal is in it. */
  readonly door?: Section | null;
}

/**
 * On the lists of a round a scanned chip opens the animal that carries it and makes sure of it, when it can be treated
 * now; else it says whose it is. Nothing that is scanned there ends in silence.
 */
export function ScanOpens({ opens = true, door = null }: ScanOpensProps) {
  const { view, round, world } = useRound();
  const [, go] = useLocation();
  const [heard, setHeard] = useState<Heard | null>(null);
  const { state, save } = useSave();
  const read = useChipNumber();
  const take = async (raw: string): Promise<void> => {
    const reading = read(raw);
    if (!reading.ok) {
      signal('stop');
      setHeard({ words: say(reading.why), raw, left: null });
      return;
    }
    const { code } = reading.value;
    const carriers = carriersOf(world, code);
    if (carriers.length > 1) {
      signal('stop');
      setHeard({ words: say(sharedChip(code, carriers)), raw, left: null });
      return;
    }
    const animal = carriers[0] ?? null;
    const there = animal === null ? null : stopOf(view, animal.id);
    if (!opens || animal === null || there === null || there.at.state !== 'inside' || view.state !== 'running') {
      signal('stop');
      const words = animal === null ? nobodys(world, code) : whose(animal, there?.at ?? null, door);
      setHeard({ words, raw, left: animal === null ? (carriedElsewhere(world, code)?.animal ?? null) : null });
      return;
    }
    const at = now();
    const made = { round, by: 'chip' as const, compared: ['chip'], answers: answersOf(there.stop) };
    const saved = await save([
      ...scanChip(
        animal.id,
        { target: 'animal', occasion: 'identify', found: foundOf(reading.value), told: 'match', round },
        at,
      ),
      ...identify(animal.id, made, at),
    ]);
    if (saved === null) return;
    signal('match');
    go(animalPath(round, animal.id));
  };
  useScan((raw) => take(raw));
  return (
    <>
      <Trouble state={state} />
      {heard === null ? null : (
        <ScanAnswer of={heard}>
          <Notice tone="attention" live="alert">
            {heard.words}{' '}
            {heard.left === null ? null : (
              <Link href={`/animals/${encodeURIComponent(heard.left)}`}>{say('parts.open-animal')}</Link>
            )}
          </Notice>
          <ChipWarnings warnings={warningsOf(heard.raw)} />
        </ScanAnswer>
      )}
    </>
  );
}

function whose(animal: Animal, at: SectionStop | null, door: Section | null): string {
  return say(`round.scan.${whereItIs(animal, at, door?.id ?? null)}`, {
    animal: animal.name || animal.label,
    kennel: animal.kennel || '–',
    section: at?.section.name ?? '',
    here: door?.name ?? '',
  });
}
