import { ageRange } from '../../../core/animal/age-range.js';
import type { Animal } from '../../../core/animal/animal.js';
import { isNoMark } from '../../../core/animal/marks.js';
import { type CalendarDate, dayOfInstant, daysBetween } from '../../../core/calendar.js';
import { writeWeight } from '../../../core/quantity/write.js';
import type { LogRecord } from '../../../log/record.js';
import { chipWarnings } from '../../../log/views/chips/chip-warnings.js';
import { signsNow } from '../../../log/views/round/signs-now.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { ChipWarnings } from '../../parts/chip-warnings.js';
import { ChipTrust } from '../../parts/fields/chip-trust.js';
import { Figure } from '../../parts/figure.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { State } from '../../parts/state.js';
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
  const weighing = animal.weighings.at(-1);
  const weighed = weighing === undefined ? null : dayOfInstant(weighing.at, shelter.zone);
  const Name = level === 1 ? 'h1' : 'h2';
  const { collar, coat, mark } = animal.marks;
  const marks = [isNoMark(collar) ? '' : say('round.collar', { collar }), coat, mark].filter((one) => !isNoMark(one));
  if (identified != null) return <SmallHead animal={animal} identified={identified} />;
  return (
    <div className="animal-head">
      <CatFace name={animal.name} collar={animal.marks.collar} photo={animal.marks.photo} />
      <div>
        <Name>{animal.name || animal.label}</Name>
        <div className="soft">{marks.length === 0 ? say('round.no-marks') : marks.join(' · ')}</div>
        <div className="soft">
          {animal.kennel === '' ? null : `${say('round.kennel-short', { kennel: animal.kennel })} · `}
          {ageText(animal, today)}
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
        <div className="soft">
          {animal.chip === null ? say('round.no-chip') : <ChipNumber code={animal.chip.code} />}
        </div>
        <Signs animal={animal} />
        <ChipTrust animal={animal} />
        <ChipWarnings warnings={chipWarnings(animal)} />
      </div>
    </div>
  );
}

/** Signs of illness that stand: whoever treats the animal sees them before the needle. */
function Signs({ animal }: { animal: Animal }) {
  const { today } = useRound();
  return signsNow(animal, today).map(({ what, since }) => (
    <State key={say('round.sign-seen', { what, on: { date: since } })} tone="attention">
      {say('round.sign-seen', { what, on: { date: since } })}
    </State>
  ));
}

/** The age, or the youngest and the oldest it may be. */
function ageText(animal: Animal, today: CalendarDate): string {
  const { youngest, oldest } = ageRange(animal, today);
  return youngest === oldest
    ? say('round.age', { age: { ageDays: Math.max(0, youngest) } })
    : say('round.age-between', {
        youngest: { ageDays: Math.max(0, youngest) },
        oldest: { ageDays: Math.max(0, oldest) },
      });
}

/** Once it is made sure of, the animal is named and leaves the room to what is done to it. */
function SmallHead({ animal, identified }: { animal: Animal; identified: LogRecord<'animal-identified'> }) {
  const { today, shelter } = useRound();
  const weighing = animal.weighings.at(-1);
  const { collar } = animal.marks;
  return (
    <div className="animal-head small-head">
      <CatFace name={animal.name} collar={collar} photo={animal.marks.photo} size={44} />
      <div>
        <h1>{animal.name || animal.label}</h1>
        <Identified record={identified} />
        <div className="soft small">
          {[
            isNoMark(collar) ? '' : say('round.collar', { collar }),
            animal.kennel === '' ? '' : say('round.kennel-short', { kennel: animal.kennel }),
            ageText(animal, today),
          ]
            .filter((text) => text !== '')
            .join(' · ')}
          {weighing === undefined ? null : (
            <span className="head-weight">
              {' · '}
              <span className="ink">
                <Figure text={writeWeight(weighing.grams)} />
              </span>{' '}
              {say('round.weighed-ago', { days: daysBetween(dayOfInstant(weighing.at, shelter.zone), today) })}
            </span>
          )}
        </div>
        <Signs animal={animal} />
        <ChipTrust animal={animal} />
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

const marks = ['collar', 'coat', 'mark', 'photo'] as const;
/** What was compared, in words; what has none stands for itself. */
const listOf = (compared: readonly string[]): string =>
  compared
    .map((kind) => {
      const known = marks.find((mark) => mark === kind);
      return known === undefined ? kind : say(`round.mark.${known}`);
    })
    .join(', ');
