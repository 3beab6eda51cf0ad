import { expect, it } from 'vitest';
import { at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { moveAnimal } from '../commands/animal.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';

const home = { section: 'kittens-one' as never, kennel: '1' };
const other = { section: 'kittens-one' as never, kennel: '2' };
const away = { section: 'quarantine' as never, kennel: '1' };
const crossed = (log: ReturnType<typeof ward>) =>
  flagsIn(buildWorld(log.records), day('2026-03-10')).filter(({ code }) => code === 'moved-crossed');

/** Pip lives in kennel 1 of kittens-one (test/support/ward.ts). */
function moving() {
  const log = ward();
  log.take('pip', '2026-01-20');
  const move = (from: typeof home, to: typeof home, time: string, device = 'phone-a') =>
    log.add(moveAnimal('pip' as never, from, to, at('2026-03-10', time)), 'ines', device)[0];
  return { log, move };
}

it('a move that began where the animal was no longer is flagged, and stands (Verifies: LOG-R73)', () => {
  const { log, move } = moving();
  move(home, other, '10:00');
  expect(crossed(log)).toEqual([]);
  const second = move(home, away, '10:05', 'phone-b');
  expect(buildWorld(log.records).animals.get('pip' as never)).toMatchObject(away);
  const [flag, ...more] = crossed(log);
  expect(more).toEqual([]);
  expect(flag).toMatchObject({ about: second?.id, animal: 'pip', state: 'open' });
  expect(flag?.why.with?.had).toEqual({ say: 'desk.place.both', with: { section: 'kittens-one', kennel: '2' } });
  // One who knew of it moves it on: nothing to see.
  move(away, home, '11:00');
  expect(crossed(log)).toHaveLength(1);
});

it('a place that was put right afterwards is no crossing, nor is a move that does not say from where (Verifies: LOG-R73)', () => {
  const { log, move } = moving();
  const first = move(home, other, '10:00');
  move(other, away, '10:05');
  log.one('animal-moved', 'animal:pip', { ...home, from: home }, at('2026-03-10', '10:00'), first?.id);
  expect(crossed(log)).toEqual([]);
  log.one('animal-moved', 'animal:pip', home, at('2026-03-10', '12:00'));
  expect(crossed(log)).toEqual([]);
});
