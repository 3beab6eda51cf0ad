import type { Animal } from '../../../core/animal/animal.js';
import { rankOrder } from '../../../core/biosecurity/section.js';
import { type CalendarDate, dayNumber } from '../../../core/calendar.js';
import type { KeepApart } from '../../../core/protocol/document/document.js';
import { known } from '../../../core/protocol/input.js';
import { type Said, said } from '../../../core/said.js';
import { deskAndMedical, type Raise } from '../../flag.js';
import type { LogRecord } from '../../record.js';
import { dayOf, foldAnimal } from '../animal.js';
import { groundOn } from '../documents/ground-on.js';
import { inputOf } from '../engine-input.js';
import type { Ground } from '../ground.js';
import { stoodBefore } from '../just-before.js';
import { type Section, sectionOf } from '../shelter.js';

/** What was seen of an animal that keeps it out of cleaner sections on a day, by the signed protocol. */
export function seenThatKeepsApart(animal: Animal, ground: Ground, on: CalendarDate): readonly KeepApart[] {
  const rules = ground.protocol?.keepApart ?? [];
  if (rules.length === 0 || animal.observations.length === 0) return [];
  const today = dayNumber(on);
  return rules.filter(({ code }) => known({ input: inputOf(animal, ground), today }, code, today).state === 'present');
}

/** What keeps an animal apart, as a part of a sentence. */
export const keptSaid = ({ words }: KeepApart): Said => said('open.apart.seen', { what: words });

/** Whether a section is cleaner than what was seen lets an animal into; a place that is no section is not. */
export const isTooClean = (to: Pick<Section, 'rank'> | null, { rank }: KeepApart): boolean =>
  to !== null && rankOrder(to.rank) < rankOrder(rank);

/** Moves to a section that was cleaner than the animal was to be in, by what stood when it was moved. */
export function tooCleanFlags(
  animal: Animal,
  records: readonly LogRecord[],
  standing: readonly LogRecord[],
  ground: Ground,
  raise: Raise,
): void {
  if (!records.some(({ kind }) => kind === 'observation-noted')) return;
  for (const move of standing) {
    if (move.kind !== 'animal-moved') continue;
    const to = sectionOf(ground, move.body.section);
    const then = groundOn(ground, dayOf(move));
    const rules = stoodBefore(records, standing, move).flatMap((before) => {
      const moved = foldAnimal(animal.id, before, then);
      return moved === null ? [] : seenThatKeepsApart(moved, then, dayOf(move));
    });
    const what = [...new Set(rules.filter((rule) => isTooClean(to, rule)).map(({ words }) => words))];
    if (to === null || what.length === 0) continue;
    raise('moved-too-clean', 'stop', move, deskAndMedical, { section: to.name, what: { list: what } });
  }
}
