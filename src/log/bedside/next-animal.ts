import { isAlone } from '../plan/live.js';
import { needsPair } from '../plan/operations.js';
import { groupOf } from '../views/round/group.js';
import { isStopped } from '../views/round/identity.js';
import { isDrawn, isLeft } from '../views/round/is-left.js';
import type { AnimalStop, RoundLine, RoundView, SectionStop } from '../views/round/round.js';

/**
 * Which animal of a section comes next, other than `except`; null when nothing can be done there any more by the people
 * at hand. First the one whose blood has waited longest; then those of the litter or kennel of `except`, for nobody
 * changes gloves for another litter while one of this is open; then the plan's order, and what no plan has. Whoever
 * stands at a wrong chip comes last: there the next thing is a question, not a treatment.
 */
export function nextAnimal(view: RoundView, at: SectionStop, except = ''): AnimalStop | null {
  const canBeDone = (line: RoundLine): boolean =>
    isLeft(line) && !(isAlone(view) && line.state === 'open' && needsPair(line));
  const visit = view.facts.plan.ribbon?.visits.find((one) => one.section === at.section.id);
  const order = (visit?.steps ?? [])
    .filter((step) => step.is === 'handling')
    .sort((a, b) => a.start - b.start)
    .map((step) => step.animal);
  const placeOf = ({ animal }: AnimalStop): number => {
    const place = order.indexOf(animal.id);
    return place < 0 ? order.length : place;
  };
  const open = at.animals
    .filter(({ animal, lines }) => animal.id !== except && lines.some(canBeDone))
    .sort((a, b) => placeOf(a) - placeOf(b));
  const free = open.filter((stop) => !isStopped(stop));
  const waiting = free
    .filter((stop) => drawnAt(stop) !== null)
    .sort((a, b) => ((drawnAt(a) ?? '') < (drawnAt(b) ?? '') ? -1 : 1));
  const last = at.animals.find(({ animal }) => animal.id === except)?.animal;
  const beside = free.find(
    ({ animal }) =>
      last !== undefined &&
      (groupOf(animal) === groupOf(last) || (last.kennel !== '' && animal.kennel === last.kennel)),
  );
  return waiting[0] ?? beside ?? free[0] ?? open[0] ?? null;
}

/** Since when blood of an animal waits for its test; null when none does. */
function drawnAt({ lines }: AnimalStop): string | null {
  const times = lines.flatMap((line) => (isDrawn(line) ? [line.run?.drawnAt ?? ''] : []));
  return times.sort()[0] ?? null;
}
