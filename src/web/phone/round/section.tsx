import { useLocation } from 'wouter';
import { nextAnimal } from '../../../log/bedside/next-animal.js';
import { isWeighedFirst, nextStep } from '../../../log/bedside/next-step.js';
import { standOf } from '../../../log/bedside/stand.js';
import { asNeededOf } from '../../../log/views/round/as-needed.js';
import { isLeft } from '../../../log/views/round/is-left.js';
import type { AnimalStop, SectionStop } from '../../../log/views/round/round.js';
import { twinsOf } from '../../../log/views/twins.js';
import { standWords, toneOfStand } from '../../../told/stand-words.js';
import { say } from '../../../words/say.js';
import { Act, BigButton } from '../../parts/act.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { animalPath, leavePath, roundPath } from '../../parts/round-paths.js';
import { State } from '../../parts/state.js';
import { Acts, Place, Row } from '../around/bits.js';
import { useRound } from '../around/use-round.js';
import { Door } from '../door/door.js';
import { ScanOpens } from '../identify/scan-opens.js';
import { twinNote } from '../identify/twins.js';

/** A section: the door while outside, the animals once inside. */
export function SectionScreen({ section }: { section: string }) {
  const { view, round } = useRound();
  const [, go] = useLocation();
  const stop = view.stops.find((one) => one.section.id === section);
  if (stop === undefined) {
    return (
      <div className="round-body">
        <p>{say('round.section.not-here')}</p>
        <Act onAct={() => go(roundPath(round))}>{say('round.to-round')}</Act>
      </div>
    );
  }
  return stop.state === 'inside' || view.state !== 'running' ? <Inside at={stop} /> : <Door at={stop} />;
}

function Inside({ at }: { at: SectionStop }) {
  const { view, round, world, today } = useRound();
  const [, go] = useLocation();
  const next = nextAnimal(view, at);
  const kennels = byKennel(at.animals);
  return (
    <>
      <ScanOpens />
      <Place at={at} />
      <div className="round-body">
        <h1 className="away">{at.section.name}</h1>
        {at.animals.length === 0 ? <p>{say('round.section.nobody')}</p> : null}
        {[...kennels].map(([kennel, stops]) => (
          <section key={kennel} className="round-list" aria-label={say('round.kennel', { kennel: kennel || '–' })}>
            <h2>{say('round.kennel', { kennel: kennel || '–' })}</h2>
            {stops.map((stop) => (
              <AnimalRow key={stop.animal.id} stop={stop} />
            ))}
          </section>
        ))}
        {at.asNeeded.length === 0 ? null : (
          <section className="round-list" aria-label={say('round.as-needed.title')}>
            <h2>{say('round.as-needed.title')}</h2>
            {at.asNeeded.map(({ animal }) => (
              <Row
                key={animal.id}
                href={animalPath(round, animal.id)}
                before={
                  <CatFace name={animal.name} collar={animal.marks.collar} photo={animal.marks.photo} size={52} />
                }
                title={animal.name || animal.label}
                note={asNeededOf(world, animal, today)
                  .map(({ line }) => line.name)
                  .join(' · ')}
              />
            ))}
          </section>
        )}
      </div>
      <Acts>
        {view.state !== 'running' ? (
          <BigButton onAct={() => go(roundPath(round))}>{say('round.to-round')}</BigButton>
        ) : next === null ? (
          <BigButton onAct={() => go(leavePath(round, at.section.id))}>{say('round.leave.title')}</BigButton>
        ) : (
          <BigButton onAct={() => go(animalPath(round, next.animal.id))}>
            {say('round.next-animal', { animal: next.animal.name || next.animal.label })}
          </BigButton>
        )}
        {view.state === 'running' ? (
          <div className="act-two">
            <Act size="mid" onAct={() => go(roundPath(round))}>
              {say('round.to-round')}
            </Act>
            {next === null ? null : (
              <Act size="mid" onAct={() => go(leavePath(round, at.section.id))}>
                {say('round.leave.title')}
              </Act>
            )}
          </div>
        ) : null}
      </Acts>
    </>
  );
}

function byKennel(animals: readonly AnimalStop[]): Map<string, AnimalStop[]> {
  const kennels = new Map<string, AnimalStop[]>();
  for (const stop of animals) kennels.set(stop.animal.kennel, [...(kennels.get(stop.animal.kennel) ?? []), stop]);
  return kennels;
}

function AnimalRow({ stop }: { stop: AnimalStop }) {
  const { world, now, today, round } = useRound();
  const { animal, lines } = stop;
  const step = nextStep(world, stop, now, today);
  const twin = twinNote(animal, twinsOf(world, animal));
  const todo =
    step.do === 'finished'
      ? lines.map((line) => line.name).join(' · ')
      : step.do === 'weigh'
        ? say(isWeighedFirst(world, stop, now, today) ? 'round.step.weigh' : 'round.step.weigh-only')
        : lines
            .filter((line) => isLeft(line))
            .map((line) => line.name)
            .join(' · ');
  const note = twin === '' ? todo : `${twin} · ${todo}`;
  return (
    <Row
      href={animalPath(round, animal.id)}
      before={<CatFace name={animal.name} collar={animal.marks.collar} photo={animal.marks.photo} size={52} />}
      title={animal.name || animal.label}
      note={note}
      end={<StandState stop={stop} />}
    />
  );
}

/** How an animal stands, in one word, the gravest first; of what is to do, how much. */
function StandState({ stop }: { stop: AnimalStop }) {
  const stand = standOf(stop);
  if (stand === 'open') return <span>{say('round.line.open', { count: stop.lines.filter(isLeft).length })}</span>;
  return <State tone={toneOfStand[stand]}>{standWords(stand)}</State>;
}
