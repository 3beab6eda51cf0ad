import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { apartFlags } from '../../log/flags/open-things.js';
import { seenThatKeepsApart } from '../../log/views/apart/keep-apart.js';
import type { World } from '../../log/views/world.js';
import { notTrusted } from '../../told/chip-words.js';
import { chipText, marksLine, nameOf, placeSaid } from '../../told/names.js';
import { say } from '../../words/say.js';
import { whySign } from './why-sign.js';

/** The sign that goes on the kennel while a result is open: keep apart, do not move, whom to ask. No diagnosis. */
export interface KennelSign {
  readonly word: string;
  readonly name: string;
  readonly marks: string;
  readonly place: string;
  readonly chip: string | null;
  /** That its chip is not trusted. */
  readonly distrust: string | null;
  readonly rules: readonly string[];
  readonly why: string;
  /** That the data is invented; null where it is not. */
  readonly demo: string | null;
  /** Whether a flag asks for the sign. */
  readonly asked: boolean;
}

export function kennelSign(world: World, animal: Animal, today: CalendarDate): KennelSign {
  const apart = apartFlags(world, animal, today);
  const seen = seenThatKeepsApart(animal, world.ground, today).map(({ words }) => words);
  return {
    word: say('desk.sign.stop'),
    name: nameOf(animal),
    marks: marksLine(animal),
    place: say(placeSaid(world.shelter, animal.section, animal.kennel)),
    chip: animal.chip === null ? null : chipText(animal.chip.code),
    distrust: notTrusted(animal, world.shelter),
    rules: (['apart', 'no-move', 'wear', 'ask'] as const).map((line) => say(`desk.sign.${line}`)),
    why: `${say(whySign(apart, seen))} ${say('desk.sign.not-verdict')}`,
    demo: world.shelter.demo ? say('parts.demo') : null,
    asked: apart.length > 0,
  };
}
