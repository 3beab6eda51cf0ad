import type { Animal } from '../../core/animal/animal.js';
import type { CalendarDate } from '../../core/calendar.js';
import { apartFlags } from '../../log/flags/open-things.js';
import { seenThatKeepsApart } from '../../log/views/apart/keep-apart.js';
import { weighingForDose } from '../../log/views/doses/weight-for-dose.js';
import type { World } from '../../log/views/world.js';
import { notTrusted } from '../../told/chip-words.js';
import { marksLine, nameOf } from '../../told/names.js';
import { say } from '../../words/say.js';

/** Who a block of lines is about: how it is known from its neighbours, and what to mind before it is touched. */
export interface AnimalBlock {
  readonly name: string;
  /** Its number, where it is called by a name, and its kennel. */
  readonly where: string;
  readonly marks: string;
  readonly chip: string | null;
  /** That its chip is not trusted. */
  readonly distrust: string | null;
  /** That it is kept apart, and for what. */
  readonly apart: string | null;
  /** What doses are worked out from. */
  readonly weight: string | null;
}

export function animalBlock(world: World, animal: Animal, today: CalendarDate): AnimalBlock {
  const apart = [
    ...apartFlags(world, animal, today).map((flag) => say(`flag-name.${flag.code}`)),
    ...seenThatKeepsApart(animal, world.ground, today).map(({ words }) => words),
  ];
  const weighing = weighingForDose(animal);
  const number = animal.name === '' || animal.label === '' ? '' : say('ribbon.sheet.number', { label: animal.label });
  return {
    name: nameOf(animal),
    where: [number, animal.kennel].filter((part) => part !== '').join(' · '),
    marks: marksLine(animal),
    chip: animal.chip?.code ?? null,
    distrust: notTrusted(animal, world.shelter),
    apart: apart.length === 0 ? null : say('ribbon.sheet.apart', { what: { list: [...new Set(apart)] } }),
    weight:
      weighing === null
        ? null
        : say(weighing.doubtful ? 'ribbon.sheet.weight-doubtful' : 'ribbon.sheet.weight', {
            weight: { grams: weighing.grams },
            on: { date: weighing.on },
          }),
  };
}
