import type { Animal } from '../../core/animal/animal.js';
import { said } from '../../core/said.js';
import { holdsApart } from './apart.js';
import type { Flag } from './flag.js';
import { placeSaid } from './place.js';
import type { World } from './world.js';

/** How it stands with the sign on a kennel: not hung as far as anybody has said, hanging, where the animal is not, to come down. */
export type SignIs = 'missing' | 'hangs' | 'elsewhere' | 'to-come-down' | 'none';

/** `apart`: whether something keeps the animal out of shared rooms. */
export function signIs({ sign, section, kennel, left }: Animal, apart: boolean): SignIs {
  if (sign === null) return apart && left === null ? 'missing' : 'none';
  if (!apart || left !== null) return 'to-come-down';
  return sign.section === section && sign.kennel === kennel ? 'hangs' : 'elsewhere';
}

/** Signs that still hang although nothing keeps their animal apart any more. */
export function signsLeft({ animals, shelter }: World, flags: readonly Flag[]): Flag[] {
  const apart = new Set(flags.filter(holdsApart).map(({ animal }) => animal));
  return [...animals.values()].flatMap((animal): Flag[] => {
    const { sign } = animal;
    if (sign === null || signIs(animal, apart.has(animal.id)) !== 'to-come-down') return [];
    return [
      {
        key: `sign-left:${sign.record}`,
        code: 'sign-left',
        severity: 'attention',
        animal: animal.id,
        about: sign.record,
        raisedAt: sign.at,
        for: ['supervisor', 'volunteer'],
        why: said('flag.sign-left', {
          animal: animal.name,
          place: placeSaid(shelter, sign.section, sign.kennel),
        }),
        by: sign.by,
        state: 'open',
        answer: null,
      },
    ];
  });
}
