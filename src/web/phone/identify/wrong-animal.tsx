import type { Animal } from '../../../core/animal/animal.js';
import type { ChipEntry } from '../../../log/chip-index.js';
import { namedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { warningsOf } from '../../../log/views/chips/chip-warnings.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { TwoNumbers } from '../../parts/fields/two-numbers.js';
import { AnimalHead } from '../around/animal-head.js';
import { Acts, Pair } from '../around/bits.js';
import { useShowsStop } from '../around/stops-shown.js';
import { stopOf, useRound } from '../around/use-round.js';

export interface WrongScan {
  readonly code: string;
  /** What the reader sent. */
  readonly raw: string;
  /** Whose chip it is; null when it is on the record of nobody here. */
  readonly other: Animal | null;
  /** The animal that left and has it on its record. */
  readonly elsewhere: ChipEntry | null;
}

interface WrongAnimalProps {
  readonly animal: Animal;
  readonly scan: WrongScan;
  readonly onAgain: () => void;
  readonly onChange: (other: Animal) => Promise<void>;
  readonly onOverride: () => void;
}

/** Stop: the chip is not this animal's. Both are shown; nothing is recorded as given. */
export function WrongAnimal({ animal, scan, onAgain, onChange, onOverride }: WrongAnimalProps) {
  const { view } = useRound();
  const { other, code } = scan;
  const onRound = other === null ? null : stopOf(view, other.id);
  const names = { animal: animal.name || animal.label, other: other === null ? '' : other.name || other.label };
  const heading = useShowsStop();
  return (
    <div className="stop-screen" role="alertdialog" aria-labelledby="stop-title" aria-describedby="stop-what">
      <div className="stop-head">
        <h1 id="stop-title" ref={heading} tabIndex={-1}>
          <span aria-hidden="true">■ </span>
          {say('round.wrong.title', names)}
        </h1>
        <p>
          {other === null
            ? scan.elsewhere === null
              ? say('round.wrong.nobodys', { animal: names.animal, code: chipText(code) })
              : say('round.wrong.elsewhere', { code: chipText(code), other: namedElsewhere(scan.elsewhere) })
            : say('round.wrong.whose', { ...names, kennel: other.kennel || '–' })}
        </p>
      </div>
      <div className="round-body">
        {animal.chip === null ? null : (
          <TwoNumbers
            numbers={[
              { word: say('round.chip.word-on-record', { name: names.animal }), code: animal.chip.code },
              { word: say('round.chip.word-read-here'), code },
            ]}
          />
        )}
        <ChipWarnings warnings={warningsOf(scan.raw)} />
        {other === null ? null : <AnimalHead animal={other} level={2} />}
        <AnimalHead animal={animal} level={2} />
        <p id="stop-what" className="stop-what">
          {other === null
            ? say('round.wrong.put-back-unknown')
            : onRound === null
              ? say('round.wrong.put-back', names)
              : say('round.wrong.put-back-or-change', names)}
        </p>
      </div>
      <Acts>
        <Act main size="big" onAct={onAgain}>
          {say('round.wrong.again')}
        </Act>
        <Pair>
          {other !== null && onRound !== null ? (
            <Act size="mid" onAct={() => onChange(other)}>
              {say('round.wrong.change', names)}
            </Act>
          ) : null}
          <Act size="mid" onAct={onOverride}>
            {say('round.identify.override')}
          </Act>
        </Pair>
      </Acts>
    </div>
  );
}
