import type { Animal } from '../../../core/animal/animal.js';
import type { CalendarDate } from '../../../core/calendar.js';
import { apartFlags } from '../../../log/flags/open-things.js';
import { testsStanding } from '../../../log/views/blood-tests/tests-standing.js';
import type { World } from '../../../log/views/world.js';
import { say } from '../../../words/say.js';

export interface NotSettled {
  readonly key: string;
  readonly tone: 'stop' | 'attention';
  readonly text: string;
}

/** In words, for a list: the tests of an animal that are not settled, and what else keeps it out of shared rooms. */
export function notSettled(world: World, animal: Animal, today: CalendarDate): NotSettled[] {
  const tests = testsStanding(animal, world.ground, today).map(
    ({ schedule, name, is }): NotSettled => ({
      key: `${is} ${schedule}`,
      tone: is === 'reactive' ? 'stop' : 'attention',
      text: say(`open.test.${is}`, { schedule: name }),
    }),
  );
  // The reactive test is named above.
  const apart = apartFlags(world, animal, today)
    .filter(({ code }) => code !== 'reactive')
    .map(({ key, code }): NotSettled => ({ key, tone: 'stop', text: say(`flag-name.${code}`) }));
  return [...apart, ...tests];
}
