import type { Animal } from '../../../core/animal/animal.js';
import { apartFlags } from '../../../log/flags/open-things.js';
import { seenThatKeepsApart } from '../../../log/views/apart/keep-apart.js';
import { nameOf } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { SignState } from '../../parts/sign-state.js';
import { Notice } from '../../parts/state.js';
import { useRound } from '../around/use-round.js';

/** Why the animal in the hands is kept out of shared rooms, as long as the medical team has not answered. */
export function KeptApart({ animal }: { animal: Animal }) {
  const { world, today } = useRound();
  const flags = apartFlags(world, animal, today);
  const seen = seenThatKeepsApart(animal, world.ground, today).map(({ words }) => words);
  const what = { list: [...new Set([...flags.map((flag) => say(`flag-name.${flag.code}`)), ...seen])] };
  const told = <Notice tone="attention">{say('round.apart', { what, animal: nameOf(animal) })}</Notice>;
  if (flags.length === 0) {
    return (
      <>
        {seen.length === 0 ? null : told}
        <SignState animal={animal} apart={false} size="mid" />
      </>
    );
  }
  return (
    <>
      {told}
      <SignState animal={animal} apart size="mid" />
    </>
  );
}
