import type { Animal } from '../../../core/animal/animal.js';
import { isNoMark } from '../../../core/animal/marks.js';
import { dayOfInstant, daysBetween } from '../../../core/calendar.js';
import { writeWeight } from '../../../core/quantity/write.js';
import type { LogRecord } from '../../../log/record.js';
import { chipWarnings } from '../../../log/views/chip-warnings.js';
import { ageRange } from '../../../log/views/dose.js';
import { say } from '../../../words/say.js';
import { CatFace } from '../../parts/cat-face.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { Figure } from '../../parts/figure.js';
import { State } from '../../parts/state.js';
import { chipText } from '../../told/names.js';
import { useRound } from './use-round.js';

interface HeadProps {
  readonly animal: Animal;
  /** How it was made sure of on this round; null while it has not been. */
  readonly identified?: LogRecord<'animal-identified'> | null;
  readonly level?: 1 | 2;
}

/** Who is in the hands: name, marks, kennel, age, weight, and how the identity was made sure of. */
export function AnimalHead({ animal, identified, level = 1 }: HeadProps) {
  const { today, shelter } = useRound();
  const age = ageRange(animal, today);
  const weighing = animal.weighings.at(-1);
  const weighed = weighing === undefined ? null : dayOfInstant(weighing.at, shelter.zone);
  const Name = level === 1 ? 'h1' : 'h2';
  const { collar, coat, mark } = animal.marks;
  const marks = [isNoMark(collar) ? '' : say('round.collar', { collar }), coat, mark].filter((one) => !isNoMark(one));
  return (
    <div className="animal-head">
      <CatFace name={animal.name} collar={animal.marks.collar} photo={animal.marks.photo} />
      <div>
        <Name>{animal.name || animal.label}</Name>
        <div className="soft">{marks.length === 0 ? say('round.no-marks') : marks.join(' · ')}</div>
        <div className="soft">
          {animal.kennel === '' ? null : `${say('round.kennel-short', { kennel: animal.kennel })} · `}
          {age.youngest === age.oldest
            ? say('round.age', { age: { ageDays: Math.max(0, age.youngest) } })
            : say('round.age-between', {
                youngest: { ageDays: Math.max(0, age.youngest) },
                oldest: { ageDays: Math.max(0, age.oldest) },
              })}
          {weighing === undefined ? (
            ` · ${say('round.never-weighed')}`
          ) : (
            <span className="head-weight">
              {' · '}
              <span className="ink">
                <Figure text={writeWeight(weighing.grams)} />
              </span>{' '}
              {say('round.weighed-ago', { days: weighed === null ? 0 : daysBetween(weighed, today) })}
            </span>
          )}
        </div>
        {identified == null ? (
          <div className="soft">
            {animal.chip === null ? say('round.no-chip') : <ChipNumber code={animal.chip.code} />}
          </div>
        ) : (
          <Identified record={identified} />
        )}
        <ChipWarnings warnings={chipWarnings(animal)} />
      </div>
    </div>
  );
}

/** 15 digits in groups of three, so that a person can compare them; the number itself stays text. */
export const ChipNumber = ({ code }: { code: string }) => (
  <span>
    {say('round.chip')} <span className="mono">{chipText(code)}</span>
  </span>
);

function Identified({ record }: { record: LogRecord<'animal-identified'> }) {
  const { by, compared, reason } = record.body;
  if (by === 'override') {
    return (
      <State tone="attention">
        {say('round.identified.override', { reason: say(`override.${reason || 'other'}`) })}
      </State>
    );
  }
  const what = by === 'chip' ? say('round.identified.chip') : listOf(compared);
  return <State tone="done">{say('round.identified.by', { what })}</State>;
}

const listOf = (compared: readonly string[]): string => compared.map((kind) => say(`round.mark.${kind}`)).join(', ');
