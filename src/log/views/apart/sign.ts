import type { Animal } from '../../../core/animal/animal.js';
import { said } from '../../../core/said.js';
import type { Flag, Raised } from '../../flag.js';
import type { Ground } from '../ground.js';
import { placeSaid } from '../place.js';
import { holdsApart } from './apart.js';

/** How it stands with the sign on a kennel: not hung as far as anybody has said, hanging, where the animal is not, to come down. */
export type SignIs = 'missing' | 'hangs' | 'elsewhere' | 'to-come-down' | 'none';

/** `apart`: whether something keeps the animal out of shared rooms. */
export function signIs({ sign, section, kennel, left }: Animal, apart: boolean): SignIs {
  if (sign === null) return apart && left === null ? 'missing' : 'none';
  if (!apart || left !== null) return 'to-come-down';
  return sign.section === section && sign.kennel === kennel ? 'hangs' : 'elsewhere';
}

/** The sign that still hangs although nothing keeps its animal apart any more. `flags` are all that the animal has. */
export function signLeft(animal: Animal, ground: Ground, flags: readonly Flag[]): Raised[] {
  const { sign } = animal;
  if (sign === null || signIs(animal, flags.some(holdsApart)) !== 'to-come-down') return [];
  return [
    {
      key: `sign-left:${sign.record}`,
      code: 'sign-left',
      severity: 'attention',
      animal: animal.id,
      about: sign.record,
      raisedAt: sign.at,
      for: ['supervisor', 'volunteer'],
      why: said('flag.sign-left', { animal: animal.name, place: placeSaid(ground, sign.section, sign.kennel) }),
      by: sign.by,
      // Words do not take a sign down.
      followUp: null,
    },
  ];
}
