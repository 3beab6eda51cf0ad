import type { Animal } from '../../core/animal/animal.js';
import { holdNamed } from '../../core/animal/named.js';
import type { CalendarDate } from '../../core/calendar.js';
import { type Said, said } from '../../core/said.js';
import type { Flag } from '../flag.js';
import { holdsApart } from '../views/apart/apart.js';
import { keptSaid, seenThatKeepsApart } from '../views/apart/keep-apart.js';
import { testsStanding } from '../views/blood-tests/tests-standing.js';
import type { World } from '../views/world.js';
import { flagsAbout } from './flags.js';

/** Something about one animal that somebody has to know before it goes anywhere. */
export interface OpenThing {
  readonly key: string;
  readonly is: 'test' | 'apart' | 'flag' | 'hold';
  readonly tone: 'stop' | 'attention';
  readonly name: Said;
  readonly why: Said;
}

/** Flags that hold an animal where it is: it is not to be moved to a room that it would share. */
export const apartFlags = (world: World, animal: Animal, today: CalendarDate): Flag[] =>
  flagsAbout(world, animal.id, today).filter(holdsApart);

/**
 * What is open about one animal, also after it has left: tests that are not settled, what keeps it apart (an exposure, a
 * bite that is watched), its open flags, and holds that a person placed and nobody lifted.
 */
export function openThings(world: World, animal: Animal, today: CalendarDate): OpenThing[] {
  const { shelter } = world;
  const tests = testsStanding(animal, shelter, today).map(
    ({ schedule, name, is, why }): OpenThing => ({
      key: `${is} ${schedule}`,
      is: 'test',
      tone: is === 'reactive' ? 'stop' : 'attention',
      name: said(`open.test.${is}`, { schedule: name }),
      why,
    }),
  );
  const flags = flagsAbout(world, animal.id, today)
    .filter((flag) => flag.state !== 'answered' && flag.code !== 'left-open')
    .map(
      (flag): OpenThing => ({
        key: flag.key,
        is: 'flag',
        tone: flag.severity,
        name: said(`flag-name.${flag.code}`),
        why: flag.why,
      }),
    );
  const holds = animal.holds
    .filter(({ until }) => until === null || until >= (animal.left?.on ?? today))
    .map(
      ({ record, until, ...hold }): OpenThing => ({
        key: record,
        is: 'hold',
        tone: 'attention',
        name: said('open.hold'),
        why: holdSaid(holdNamed(hold), until),
      }),
    );
  const apart = seenThatKeepsApart(animal, world.ground, animal.left?.on ?? today).map(
    (rule): OpenThing => ({ key: rule.id, is: 'apart', tone: 'stop', name: said('open.apart'), why: keptSaid(rule) }),
  );
  return [...tests, ...apart, ...flags, ...holds];
}

const holdSaid = (what: Said | string, until: CalendarDate | null): Said =>
  until === null ? said('due.hold.placed', { what }) : said('open.hold-until', { what, until: { date: until } });
