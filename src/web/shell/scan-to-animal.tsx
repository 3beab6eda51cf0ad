import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Said } from '../../core/said.js';
import { carriersOf } from '../../log/views/chips/carriers.js';
import { carriedElsewhere } from '../../log/views/chips/chip-elsewhere.js';
import { warningsOf } from '../../log/views/chips/chip-warnings.js';
import { nobodys, sharedChip } from '../../told/names.js';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { ChipWarnings } from '../parts/chip-warnings.js';
import { Notice } from '../parts/state.js';
import { useChipNumber } from '../parts/use-chip-number.js';
import { useScan } from '../scan/use-scan.js';
import { useWorld } from '../store/here.js';

/** At the desk a scanned chip opens the animal that carries it, from any page. Nothing is recorded by it. */
export function ScanToAnimal() {
  const world = useWorld();
  const [, go] = useLocation();
  const [words, setWords] = useState<string | null>(null);
  const [warnings, setWarnings] = useState<readonly Said[]>([]);
  const read = useChipNumber();
  useScan((raw) => {
    const chip = read(raw);
    setWarnings(chip.ok ? warningsOf(raw) : []);
    if (!chip.ok) {
      setWords(say(chip.why));
      return;
    }
    const carriers = carriersOf(world, chip.value.code);
    if (carriers.length > 1) {
      setWords(say(sharedChip(chip.value.code, carriers)));
      return;
    }
    const id = carriers[0]?.id ?? carriedElsewhere(world, chip.value.code)?.animal;
    if (id === undefined) setWords(nobodys(world, chip.value.code));
    else {
      setWords(null);
      go(`/animals/${encodeURIComponent(id)}`);
    }
  });
  if (words === null) return null;
  return (
    <>
      <Notice tone="attention" live="status">
        {words}{' '}
        <Act size="small" onAct={() => setWords(null)}>
          {say('parts.close')}
        </Act>
      </Notice>
      <ChipWarnings warnings={warnings} />
    </>
  );
}
