import { apartFlags } from '../../../log/flags/open-things.js';
import { signIs } from '../../../log/views/apart/sign.js';
import type { AnimalStop } from '../../../log/views/round/round.js';
import { nameOf } from '../../../told/names.js';
import { useToday } from '../../clock.js';
import { SignState } from '../../parts/sign-state.js';
import { Notice } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';

/** At the door and at the end: signs of these animals of which nobody has said that they hang, or that they came down. */
export function SignsAsked({ stops }: { stops: readonly AnimalStop[] }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const asked = stops.flatMap(({ animal }) => {
    const apart = apartFlags(world, animal, today).length > 0;
    const is = signIs(animal, apart);
    return is === 'none' || is === 'hangs' ? [] : [{ animal, apart }];
  });
  return asked.map(({ animal, apart }) => (
    <Notice key={animal.id} tone="attention">
      <b>{nameOf(animal)}</b> <SignState animal={animal} apart={apart} size="mid" />
    </Notice>
  ));
}
