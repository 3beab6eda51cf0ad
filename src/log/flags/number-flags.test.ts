import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { twinsOf } from '../views/twins.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';
import { openThings } from './open-things.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-10';
const today = day(on);

/** Two called Pip, one of them in care longer; the second under the number that is told. */
function withTwo(second: string, more: object = {}): Log {
  const log = ward();
  log.take('one', '2026-01-20', { name: 'Pip', label: 'A-017' });
  log.take('two', '2026-01-21', { name: 'pip ', label: second, ...more });
  return log;
}
const shared = (log: Log) => flagsIn(buildWorld(log.records), today).filter(({ code }) => code === 'number-shared');
const twins = (log: Log) => {
  const world = buildWorld(log.records);
  const one = world.animals.get(animalId('one'));
  if (one === undefined) throw new Error('nobody');
  const { name, number } = twinsOf(world, one);
  return { name: name.map(({ id }) => id), number: number.map(({ id }) => id) };
};

describe('two animals in care under one number (Verifies: LOG-R178)', () => {
  it.each(['A-017', 'a-017 ', 'Ａ-017'])('are a stop on each of them, however it is written: “%s”', (label) => {
    const log = withTwo(label);
    expect(shared(log).map(({ animal, severity }) => [animal, severity])).toEqual([
      ['one', 'stop'],
      ['two', 'stop'],
    ]);
    expect(twins(log)).toEqual({ name: ['two'], number: ['two'] });
    const world = buildWorld(log.records);
    const one = world.animals.get(animalId('one'));
    expect(one && openThings(world, one, today).map(({ name }) => name.say)).toContain('flag-name.number-shared');
  });

  it('until one has another number or has left; no words close it', () => {
    const log = withTwo('A-017');
    const flag = 'number-shared:one';
    const word = { flag, answer: 'explained', note: 'Known.' } as const;
    log.one('flag-answered', `flag:${flag}`, word, at(on), undefined, { by: 'mara' });
    expect(shared(log)[0]?.state).toBe('taken');
    log.one('animal-described', 'animal:two', { label: 'A-018' }, at(on, '10:00'));
    expect(shared(log)).toEqual([]);
    expect(twins(log)).toEqual({ name: ['two'], number: [] });
    const left = withTwo('A-017');
    left.one('animal-left', 'animal:two', { how: 'adopted', on: today }, at(on, '10:00'));
    expect(shared(left)).toEqual([]);
    expect(twins(left)).toEqual({ name: [], number: [] });
  });

  it('are none without a number, or with one each; one name is a note and no flag', () => {
    for (const label of ['', 'A-018']) {
      const log = withTwo(label);
      expect(shared(log)).toEqual([]);
      expect(twins(log)).toEqual({ name: ['two'], number: [] });
    }
    const nameless = withTwo('', { name: '' });
    nameless.one('animal-described', 'animal:one', { name: '', label: '' }, at(on));
    expect(twins(nameless)).toEqual({ name: [], number: [] });
  });
});
