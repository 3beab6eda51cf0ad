import type { Animal } from '../../core/animal/animal.js';
import { derived, listOf } from '../../core/derived.js';
import type { ProtocolInput } from '../../core/protocol/input.js';
import type { Ground } from './ground.js';
import { sectionOf } from './shelter.js';

/** What the engine looks at of an animal on its ground. */
export const inputOf = derived(
  (animal: Animal, ground: Ground): ProtocolInput => ({
    animal,
    rank: sectionOf(ground, animal.section)?.rank ?? null,
    ...catalogues(ground),
  }),
);

/** What there is, and was, to treat with. */
export const catalogues = derived(
  (ground: Ground): Pick<ProtocolInput, 'formulary' | 'formerFormularies'> => ({
    formulary: ground.formulary,
    formerFormularies: formersOf(ground),
  }),
);

/** Newest first. */
const formersOf = ({ formularies }: Ground): NonNullable<ProtocolInput['formerFormularies']> =>
  listOf(formularies.map((filed) => filed.document).toReversed());
