import type { Animal } from '../../../core/animal/animal.js';
import type { Shelter } from '../shelter.js';

/** The chip on record of an animal that showed another number too, and nobody has cleared it up. */
export interface TwoChips {
  readonly own: string;
  readonly other: string;
  /** Nothing more is done on the animal; false once somebody who is named said to go on. */
  readonly stops: boolean;
}

/**
 * Null while the chip on record is trusted. Two numbers stay two until one was read as it should be, or the desk or the
 * medical team has answered the flag; passing it on is no answer.
 */
export function chipTrust({ chip }: Pick<Animal, 'chip'>, answers: Shelter['answers']): TwoChips | null {
  if (chip?.differs === undefined) return null;
  const answer = answers.get(`chip-differs:${chip.differs.scan}`)?.answered?.answer;
  if (answer !== undefined && answer !== 'passed-on') return null;
  return { own: chip.code, other: chip.differs.code, stops: !chip.differs.word };
}
