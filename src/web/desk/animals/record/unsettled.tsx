import { Link } from 'wouter';
import type { Animal } from '../../../../core/animal/animal.js';
import { apartFlags, type OpenThing, openThings } from '../../../../log/flags/open-things.js';
import { seenThatKeepsApart } from '../../../../log/views/apart/keep-apart.js';
import { say } from '../../../../words/say.js';
import { useToday } from '../../../clock.js';
import { Part } from '../../../parts/page.js';
import { SignState } from '../../../parts/sign-state.js';
import { Notice, State } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';

/** What is not settled, at the head of the page, on paper too; after the animal has left everything that was open. */
export function Unsettled({ animal }: { animal: Animal }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const things = openThings(world, animal, today);
  const shown = animal.left === null ? things.filter(({ is }) => is === 'test') : things;
  const apart = animal.left === null ? apartFlags(world, animal, today) : [];
  const seen = animal.left === null ? seenThatKeepsApart(animal, world.ground, today) : [];
  return (
    <>
      {seen.length === 0 ? null : (
        <Notice tone="attention">{say('desk.apart.seen', { what: { list: seen.map(({ words }) => words) } })}</Notice>
      )}
      {apart.length === 0 ? null : (
        <Notice tone="stop">
          {say('desk.apart.title', {
            what: { list: [...new Set(apart.map((flag) => say(`flag-name.${flag.code}`)))] },
          })}{' '}
          <Link className="no-print" href={`/signs/${encodeURIComponent(animal.id)}`}>
            {say('desk.flags.sign')}
          </Link>
        </Notice>
      )}
      <SignState animal={animal} apart={apart.length > 0} />
      {shown.length === 0 ? null : (
        <Part title={say('desk.open.title')}>
          <OpenList things={shown} />
        </Part>
      )}
    </>
  );
}

export const OpenList = ({ things }: { things: readonly OpenThing[] }) => (
  <ul className="plain">
    {things.map(({ key, tone, name, why }) => (
      <li key={key}>
        <State tone={tone}>{say(name)}</State> {say(why)}
      </li>
    ))}
  </ul>
);
