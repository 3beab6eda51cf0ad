import { correct } from '../../../log/commands/animal.js';
import { scanChip } from '../../../log/commands/round.js';
import type { Difference } from '../../../log/views/chips/chip-course.js';
import { namedElsewhere } from '../../../log/views/chips/chip-elsewhere.js';
import { warningsOf } from '../../../log/views/chips/chip-warnings.js';
import { meaningOfScan } from '../../../log/views/round/identity.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { TwoNumbers } from '../../parts/fields/two-numbers.js';
import { useSave } from '../../store/save.js';
import { Acts, Pair, Trouble } from '../around/bits.js';
import { useShowsStop } from '../around/stops-shown.js';
import { useRound } from '../around/use-round.js';

interface DiffersProps {
  readonly stop: AnimalStop;
  readonly difference: Difference;
  readonly onAgain: () => void;
}

/**
 * Stop: the animal shows another number than the one that went in, or than the one on its record. Neither is trusted
 * until it was scanned again, another cat was found on the table, or the desk has both.
 */
export function ChipDiffers({ stop, difference, onAgain }: DiffersProps) {
  const { animal } = stop;
  const { world, round } = useRound();
  const { state, save } = useSave();
  const { scan, expected, found } = difference;
  const implanted = scan.body.occasion === 'after';
  const meaning = meaningOfScan(animal, found, world);
  const name = animal.name || animal.label;
  const heading = useShowsStop();
  const otherCat = async (): Promise<void> => {
    const { body } = scan;
    await save(
      scanChip(
        animal.id,
        { target: 'animal', occasion: 'identify', found: body.found, typed: body.typed, told: meaning.is, round },
        now(),
      ),
    );
  };
  const keepBoth = async (): Promise<void> => {
    await save(correct(scan, 'chip-scanned', { ...scan.body, leftToDesk: true }));
  };
  return (
    <div className="stop-screen" role="alertdialog" aria-labelledby="differs-title" aria-describedby="differs-what">
      <div className="stop-head">
        <h1 id="differs-title" ref={heading} tabIndex={-1}>
          <span aria-hidden="true">■ </span>
          {say(implanted ? 'round.chip.differs-title' : 'round.chip.differs-title-record')}
        </h1>
        <p>
          {meaning.is === 'other'
            ? say('round.chip.differs-whose', {
                other: meaning.animal.name || meaning.animal.label,
                kennel: meaning.animal.kennel || '–',
              })
            : meaning.is === 'elsewhere'
              ? say('round.chip.differs-elsewhere', { other: namedElsewhere(meaning.entry) })
              : say('round.chip.differs-nobodys')}
        </p>
      </div>
      <div className="round-body">
        <TwoNumbers
          numbers={[
            {
              word: say(implanted ? 'round.chip.word-implanted' : 'round.chip.word-on-record', { name }),
              code: expected,
            },
            { word: say('round.chip.word-read', { name }), code: found },
          ]}
        />
        <ChipWarnings warnings={warningsOf(scan.body.found?.raw ?? found)} />
        <p id="differs-what" className="stop-what">
          {say(implanted ? 'round.chip.differs-what' : 'round.chip.differs-what-record', { name })}
        </p>
      </div>
      <Acts>
        <Trouble state={state} />
        <Act main size="big" onAct={onAgain}>
          {say('round.wrong.again')}
        </Act>
        <Pair>
          <Act size="mid" onAct={otherCat}>
            {say('round.chip.other-cat')}
          </Act>
          <Act size="mid" onAct={keepBoth}>
            {say('round.chip.keep-both')}
          </Act>
        </Pair>
      </Acts>
    </div>
  );
}
