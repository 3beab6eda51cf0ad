import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { moveAnimal, setSign } from '../../commands/animal.js';
import { flagsIn } from '../../flags/flags.js';
import { apartFlags } from '../../flags/open-things.js';
import { buildWorld } from '../world.js';
import { signIs } from './sign.js';

const pip = animalId('pip');
const home = { section: 'kittens-one' as never, kennel: '1' };
const today = day('2026-03-11');

/** Pip, on whom the lamp showed a glow, which only the medical team answers. */
function glowing() {
  const log = ward();
  log.take('pip', '2026-01-20');
  const seen = { code: 'ringworm-lamp', state: 'present', on: day('2026-03-10'), answer: 'glow' } as const;
  log.one('observation-noted', 'animal:pip', seen, at('2026-03-10', '10:00'));
  const world = () => buildWorld(log.records);
  const state = (): string => {
    const animal = world().animals.get(pip);
    if (animal === undefined) throw new Error('no pip');
    return signIs(animal, apartFlags(world(), animal, today).length > 0);
  };
  const left = () => flagsIn(world(), today).filter(({ code }) => code === 'sign-left');
  const sign = (hangs: boolean, where: typeof home, time: string) =>
    log.add(setSign(pip, { hangs, ...where }, at('2026-03-10', time)));
  const settle = (): void => {
    const key = flagsIn(world(), today).find(({ code }) => code === 'lamp-glow')?.key ?? '';
    const body = { flag: key, answer: 'not-a-problem', note: 'Culture negative.' } as const;
    log.one('flag-answered', `flag:${key}`, body, at('2026-03-10', '18:00'), undefined, { by: 'mara' });
  };
  return { log, state, left, sign, settle };
}

describe('the sign on the kennel (Verifies: LOG-R74)', () => {
  it('is missing until somebody says that it hangs, and said to hang elsewhere when the animal is moved', () => {
    const { log, state, left, sign } = glowing();
    expect(state()).toBe('missing');
    sign(true, home, '10:10');
    expect(state()).toBe('hangs');
    const away = { section: 'quarantine' as never, kennel: '2' };
    log.add(moveAnimal(pip, home, away, at('2026-03-10', '11:00')));
    expect(state()).toBe('elsewhere');
    sign(true, away, '11:05');
    expect(state()).toBe('hangs');
    expect(left()).toEqual([]);
  });

  it('is to come down when its reason has ended; words do not take it down, the record that it is down does', () => {
    const { log, state, left, sign, settle } = glowing();
    sign(true, home, '10:10');
    settle();
    expect(state()).toBe('to-come-down');
    const [flag] = left();
    expect(flag).toMatchObject({ animal: 'pip', state: 'open', severity: 'attention' });
    const key = flag?.key ?? '';
    const words = { flag: key, answer: 'done', note: 'Later.' } as const;
    log.one('flag-answered', `flag:${key}`, words, at('2026-03-10', '19:00'), undefined, { by: 'mara' });
    expect(left()).toMatchObject([{ state: 'taken' }]);
    sign(false, home, '19:10');
    expect([state(), left()]).toEqual(['none', []]);
  });

  it('is to come down when the animal has left', () => {
    const { log, state, sign } = glowing();
    sign(true, home, '10:10');
    log.one('animal-left', 'animal:pip', { how: 'adopted', on: day('2026-03-10') }, at('2026-03-10', '12:00'));
    expect(state()).toBe('to-come-down');
  });
});
