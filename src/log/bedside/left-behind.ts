import type { RoundId } from '../../core/ids.js';
import { abandonTest } from '../commands/round.js';
import type { Draft } from '../record.js';
import { isChipIn, isDrawn, isStillOpen } from '../views/round/is-left.js';
import type { AnimalStop, SectionStop } from '../views/round/round.js';

/** What a team leaves behind in a section that it goes out of. An animal may stand in both. */
export interface LeftBehind {
  /** Blood was drawn and its test never started: it does not keep, so that leaving it is throwing it away. */
  readonly drawn: readonly AnimalStop[];
  /** A chip is in, and nobody knows yet whether it can be read. They are among the open ones, too. */
  readonly unread: readonly AnimalStop[];
  /** Something else is open, and can be done later. */
  readonly open: readonly AnimalStop[];
}

export const leftBehind = ({ animals }: Pick<SectionStop, 'animals'>): LeftBehind => ({
  drawn: animals.filter(({ lines }) => lines.some(isDrawn)),
  unread: animals.filter(({ lines }) => lines.some(isChipIn)),
  open: animals.filter(({ lines }) => lines.some((line) => !isDrawn(line) && isStillOpen(line))),
});

/** The blood of an animal is thrown away: each test that was to be started from it is given up. `note`: what is said of it. */
export const throwAway = ({ animal, lines }: AnimalStop, round: RoundId, note: string, at: string): Draft[] =>
  lines.flatMap((line) =>
    isDrawn(line) && line.run !== null
      ? abandonTest(animal.id, { run: line.run.run, why: 'other', note, round }, at)
      : [],
  );
