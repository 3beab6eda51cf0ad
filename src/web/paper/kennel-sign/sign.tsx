import type { AnimalId } from '../../../core/ids.js';
import { kennelSign } from '../../../papers/kennel-sign/kennel-sign.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { Page } from '../../parts/page.js';
import { CatFace } from '../../parts/pictures/cat-face.js';
import { SignState } from '../../parts/sign-state.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';

/** The sign of a kennel for the printer, and whether it hangs. */
export function KennelSign({ params }: { params: { id: string } }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const animal = world.animals.get(decodeURIComponent(params.id) as AnimalId);
  if (animal === undefined) return <Page title={say('desk.animal.unknown')}>{null}</Page>;
  const sign = kennelSign(world, animal, today);
  return (
    <Page
      title={say('desk.sign.title', { name: sign.name })}
      acts={
        <Act main onAct={() => window.print()}>
          {say('parts.print')}
        </Act>
      }
    >
      <div className="no-print">
        <SignState animal={animal} apart={sign.asked} />
      </div>
      <div className="sign">
        <p className="sign-word">{sign.word}</p>
        <h2>{sign.name}</h2>
        <div className="row">
          <CatFace name={sign.name} collar={animal.marks.collar} photo={animal.marks.photo} size={128} />
          <div>
            <p>{sign.marks}</p>
            <p>{sign.place}</p>
            {sign.chip === null ? null : <p className="mono">{sign.chip}</p>}
            {sign.distrust === null ? null : (
              <div>
                <State tone="stop">{sign.distrust}</State>
              </div>
            )}
          </div>
        </div>
        <ul>
          {sign.rules.map((rule) => (
            <li key={rule}>{rule}</li>
          ))}
        </ul>
        <p className="small">{sign.why}</p>
        {sign.demo === null ? null : <p className="small">{sign.demo}</p>}
      </div>
    </Page>
  );
}
