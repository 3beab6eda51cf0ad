import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld, dueIn } from '../views/world.js';
import { flagsIn } from './flags.js';

const on = '2026-03-10';

function withPip() {
  const log = ward();
  log.take('pip', '2026-01-20', { arrivedOn: day('2026-03-01') });
  const left = (date: string) => log.one('animal-left', 'animal:pip', { how: 'adopted', on: day(date) }, at(on));
  const stays = (today = on): boolean => {
    const world = buildWorld(log.records);
    const pip = world.animals.get(animalId('pip'));
    return pip !== undefined && dueIn(world, pip, day(today)).some(({ status }) => status !== 'complete');
  };
  const flags = (today = on) =>
    flagsIn(buildWorld(log.records), day(today)).flatMap(({ code, severity }) =>
      /^(arrives|leaves|left)-/.test(code) ? [`${code} ${severity}`] : [],
    );
  return { log, left, stays, flags };
}

describe('nobody falls off the rounds in silence (Verifies: LOG-R154)', () => {
  it('by an arrival in the future', () => {
    const { log, flags } = withPip();
    expect(flags()).toEqual([]);
    log.one('animal-described', 'animal:pip', { arrivedOn: day('2030-01-01') }, at(on));
    expect(flags()).toEqual(['arrives-ahead stop']);
    log.one('animal-described', 'animal:pip', { arrivedOn: day('2026-03-02') }, at(on, '11:00'));
    expect(flags()).toEqual([]);
  });

  it.each(['2026-03-11', '2031-01-01'])('by a leaving on %s, a day to come', (date) => {
    const { left, stays, flags } = withPip();
    left(date);
    expect([stays(), flags()]).toEqual([true, ['leaves-ahead stop']]);
    left(on);
    expect([stays(), flags()]).toEqual([false, []]);
  });

  it('by a leaving before it arrived', () => {
    const { left, flags } = withPip();
    left('2026-02-20');
    expect(flags()).toEqual(['left-before-arrival stop']);
  });

  it('and what has left by its day has', () => {
    const { left, stays, flags } = withPip();
    left(on);
    expect([stays(), flags()]).toEqual([false, []]);
  });
});
