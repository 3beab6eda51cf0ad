import { expect, test } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { flagsIn } from '../flags/flags.js';
import { buildWorld } from '../views/world.js';
import { prepareRound } from './prepare.js';

test('says which animal was moved where no round goes, and counts it (Verifies: LOG-R44)', () => {
  const log = ward();
  log.take('pip', '2026-01-20');
  const move = log.one('animal-moved', 'animal:pip', { section: 'nirvana' as never, kennel: '' }, at('2026-03-10'));
  const world = buildWorld(log.records);
  const [flag] = flagsIn(world, day('2026-03-10')).filter(({ code }) => code === 'no-section');
  expect(flag).toMatchObject({ about: move.id, animal: 'pip', state: 'open' });
  const { problems } = prepareRound(world, ['kittens-one'] as never, at('2026-03-10'));
  expect(problems).toContainEqual({ say: 'prepare.no-section', with: { count: 1 } });
});
