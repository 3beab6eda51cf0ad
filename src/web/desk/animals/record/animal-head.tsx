import type { Animal } from '../../../../core/animal/animal.js';
import { writeWeight } from '../../../../core/quantity/write.js';
import { chipsInDoubt } from '../../../../log/views/chips/chip-fold.js';
import { chipWarnings } from '../../../../log/views/chips/chip-warnings.js';
import { effective } from '../../../../log/views/effective.js';
import { sectionOf } from '../../../../log/views/shelter.js';
import { ageSaid, bornSaid, chipText, marksLine, nameOf, placeSaid } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { useToday } from '../../../clock.js';
import { ChipWarnings } from '../../../parts/chip-warnings.js';
import { Facts } from '../../../parts/facts.js';
import { ChipTrust } from '../../../parts/fields/chip-trust.js';
import { Figure } from '../../../parts/figure.js';
import { CatFace } from '../../../parts/pictures/cat-face.js';
import { SectionHatch } from '../../../parts/section-hatch.js';
import { State } from '../../../parts/state.js';
import { useShelter, useWorld } from '../../../store/here.js';

export function AnimalHead({ animal }: { animal: Animal }) {
  const shelter = useShelter();
  const today = useToday(shelter.zone);
  const facts = [
    { word: say('desk.animal.place'), value: <Place animal={animal} /> },
    { word: say('desk.animal.age'), value: `${say(ageSaid(animal.born, today))}, ${say(bornSaid(animal.born))}` },
    {
      word: say('desk.animal.sex'),
      value: say('desk.animal.sex-line', { sex: animal.sex, neutered: animal.neutered }),
    },
    { word: say('desk.animal.weight'), value: <LastWeight animal={animal} /> },
    { word: say('desk.animal.chip'), value: <Chip animal={animal} /> },
    { word: say('desk.animal.arrived'), value: say('desk.animal.on', { on: { date: animal.arrivedOn } }) },
    { word: say('desk.animal.litter'), value: animal.litter?.name ?? '' },
    { word: say('desk.animal.notes'), value: animal.notes },
  ];
  return (
    <div className="record-head">
      <CatFace name={nameOf(animal)} collar={animal.marks.collar} photo={animal.marks.photo} size={112} />
      <div className="stack tight">
        <p>{marksLine(animal)}</p>
        <Facts facts={facts} />
      </div>
    </div>
  );
}

function Place({ animal }: { animal: Animal }) {
  const shelter = useShelter();
  const section = sectionOf(shelter, animal.section);
  if (animal.left !== null) {
    const how = say(`desk.left.${animal.left.how}`);
    const { word } = animal.left;
    return (
      <>
        <State tone="plain">{say('desk.animal.left-on', { on: { date: animal.left.on }, how })}</State>
        {word == null ? null : ` ${say('desk.animal.left-word', { person: { person: word } })}`}
      </>
    );
  }
  return (
    <span className="row nowrap">
      {section === null ? null : <SectionHatch rank={section.rank} />}
      {say(placeSaid(shelter, animal.section, animal.kennel))}
    </span>
  );
}

function LastWeight({ animal }: { animal: Animal }) {
  const weight = animal.weighings.at(-1);
  if (weight === undefined) return <State tone="attention">{say('desk.animal.never-weighed')}</State>;
  return (
    <>
      <Figure text={writeWeight(weight.grams)} /> {say('desk.animal.weighed-at', { at: { instant: weight.at } })}{' '}
      {weight.doubtful ? <State tone="attention">{say('desk.animal.doubtful')}</State> : null}
    </>
  );
}

function Chip({ animal }: { animal: Animal }) {
  if (animal.chip === null) {
    return (
      <>
        {say('desk.animal.no-chip')} <ChipsInDoubt animal={animal} />
      </>
    );
  }
  return (
    <>
      <span className="mono">{chipText(animal.chip.code)}</span>{' '}
      {animal.chip.also === undefined ? null : (
        <State tone="stop">{say('desk.animal.chip-also', { chips: { list: animal.chip.also.map(chipText) } })}</State>
      )}
      {animal.chip.confirmed ? null : (
        <>
          <State tone="attention">{say('desk.animal.chip-not-confirmed')}</State> <ChipsInDoubt animal={animal} />
        </>
      )}
      <ChipTrust animal={animal} />
      <ChipWarnings warnings={chipWarnings(animal)} />
    </>
  );
}

/** Numbers that are not its chip on record: one that went in and came out again, and one that was read on it. */
function ChipsInDoubt({ animal }: { animal: Animal }) {
  const world = useWorld();
  const { discarded, read } = chipsInDoubt(effective(world.bySubject.get(`animal:${animal.id}`) ?? []));
  const others = read.filter((code) => code !== animal.chip?.code);
  const shown = [
    { key: 'desk.animal.chip-discarded', codes: discarded },
    { key: 'desk.animal.chip-in-doubt', codes: others },
  ] as const;
  return (
    <>
      {shown
        .filter(({ codes }) => codes.length > 0)
        .map(({ key, codes }) => (
          <div key={key}>
            <State tone="attention">{say(key, { chips: { list: codes.map(chipText) } })}</State>
          </div>
        ))}
    </>
  );
}
