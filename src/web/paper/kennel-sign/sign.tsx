import type { AnimalId } from '../../../core/ids.js';
import { seenThatKeepsApart } from '../../../log/views/apart/keep-apart.js';
import { apartFlags } from '../../../log/views/apart/open-things.js';
import { chipText, marksLine, nameOf, placeSaid } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { ChipTrust } from '../../parts/fields/chip-trust.js';
import { Page } from '../../parts/page.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { SignState } from '../../parts/sign-state.js';
import { useWorld } from '../../store/here.js';
import { whySign } from './why-sign.js';

/** The sign that goes on the kennel while a result is open: keep apart, do not move, whom to ask. No diagnosis. */
export function KennelSign({ params }: { params: { id: string } }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const animal = world.animals.get(decodeURIComponent(params.id) as AnimalId);
  if (animal === undefined) return <Page title={say('desk.animal.unknown')}>{null}</Page>;
  const apart = apartFlags(world, animal, today);
  const seen = seenThatKeepsApart(animal, world.ground, today).map(({ words }) => words);
  return (
    <Page
      title={say('desk.sign.title', { name: nameOf(animal) })}
      acts={
        <Act main onAct={() => window.print()}>
          {say('parts.print')}
        </Act>
      }
    >
      <div className="no-print">
        <SignState animal={animal} apart={apart.length > 0} />
      </div>
      <div className="sign">
        <p className="sign-word">{say('desk.sign.stop')}</p>
        <h2>{nameOf(animal)}</h2>
        <div className="row">
          <CatFace name={nameOf(animal)} collar={animal.marks.collar} photo={animal.marks.photo} size={128} />
          <div>
            <p>{marksLine(animal)}</p>
            <p>{say(placeSaid(world.shelter, animal.section, animal.kennel))}</p>
            {animal.chip === null ? null : <p className="mono">{chipText(animal.chip.code)}</p>}
            <ChipTrust animal={animal} />
          </div>
        </div>
        <ul>
          {(['apart', 'no-move', 'wear', 'ask'] as const).map((line) => (
            <li key={line}>{say(`desk.sign.${line}`)}</li>
          ))}
        </ul>
        <p className="small">
          {say(whySign(apart, seen))} {say('desk.sign.not-verdict')}
        </p>
        {world.shelter.demo ? <p className="small">{say('parts.demo')}</p> : null}
      </div>
    </Page>
  );
}
