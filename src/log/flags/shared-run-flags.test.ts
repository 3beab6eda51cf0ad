import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { ward } from '../../../test/support/ward.js';
import { buildWorld } from '../views/world.js';
import { flagsIn } from './flags.js';
import { openThings } from './open-things.js';

type Log = ReturnType<typeof ward>;
const on = '2026-03-10';
const today = day(on);
const negative = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' } as const;
const kit = { schedule: 'felv-test', kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot: 'KIT-A' };

const drawn = (log: Log, animal: string, run: string) => {
  const body = { run, schedule: 'felv-test', volume_ul: 120, usable: true, sample: 'whole-blood' };
  return log.one('sample-drawn', `animal:${animal}`, body as never, at(on, '09:50'));
};
const started = (log: Log, animal: string, run: string) =>
  log.one('test-started', `animal:${animal}`, { ...kit, run, outOfColdAt: null } as never, at(on, '10:00'));
const read = (log: Log, animal: string, run: string) =>
  log.one('test-read', `animal:${animal}`, { run, seen: negative } as never, at(on, '10:08'), undefined, { by: 'tom' });

/** Pip, with a test from draw to reading, and Una. */
function withTwo(): Log {
  const log = ward();
  log.take('pip', '2026-01-20');
  log.take('una', '2026-01-20');
  drawn(log, 'pip', 'run-1');
  started(log, 'pip', 'run-1');
  read(log, 'pip', 'run-1');
  return log;
}
const shared = (log: Log) => flagsIn(buildWorld(log.records), today).filter(({ code }) => code === 'run-shared');

describe('one test under two animals (Verifies: LOG-R170)', () => {
  it.each([
    ['drawn', (log: Log) => drawn(log, 'una', 'run-1')],
    ['started', (log: Log) => started(log, 'una', 'run-1')],
    ['read', (log: Log) => read(log, 'una', 'run-1')],
    ['run with its blood', (log: Log) => started(log, 'una', 'run-1+fiv-test')],
    ['drawn for one that nobody took in', (log: Log) => drawn(log, 'stray', 'run-1')],
  ])('is a stop on both of them: %s', (_, act) => {
    const log = withTwo();
    expect(shared(log)).toEqual([]);
    const { subject } = act(log);
    const other = subject.replace('animal:', '');
    const flags = shared(log);
    expect(flags.map(({ animal }) => animal).sort()).toEqual(['pip', other]);
    for (const flag of flags) {
      expect(flag).toMatchObject({ severity: 'stop', for: ['supervisor', 'medical'], closedBy: 'medical' });
    }
    expect(flags.find(({ animal }) => animal === 'pip')?.why).toMatchObject({
      say: 'flag.run-shared',
      with: { animal: 'pip', others: { list: [other] } },
    });
  });

  it('stays when it is taken back under one of them, and goes with the answer of the medical team alone', () => {
    const log = withTwo();
    const { id } = drawn(log, 'una', 'run-1');
    log.one('record-withdrawn', 'animal:una', { reason: 'wrong cat' }, at(on, '11:00'), id, { by: 'tom' });
    expect(shared(log).map(({ why }) => why.say)).toEqual(['flag.run-shared.back', 'flag.run-shared.back']);
    const flag = 'run-shared:run-1:una';
    const word = { flag, answer: 'explained', note: 'Pip’s blood.' } as const;
    log.one('flag-answered', `flag:${flag}`, word, at(on, '12:00'), undefined, { by: 'ines' });
    expect(shared(log).find(({ animal }) => animal === 'una')?.state).toBe('taken');
    log.one('flag-answered', `flag:${flag}`, word, at(on, '13:00'), undefined, { by: 'mara' });
    expect(shared(log).find(({ animal }) => animal === 'una')?.state).toBe('answered');
    expect(shared(log).find(({ animal }) => animal === 'pip')?.state).toBe('open');
  });

  it('stands among what is open of each animal', () => {
    const log = withTwo();
    drawn(log, 'una', 'run-1');
    const world = buildWorld(log.records);
    for (const name of ['pip', 'una']) {
      const animal = world.animals.get(animalId(name));
      const open = animal === undefined ? [] : openThings(world, animal, today);
      expect(open.map(({ name: { say } }) => say)).toContain('flag-name.run-shared');
    }
  });

  it('is none where each has a test of its own, or one animal two from one draw', () => {
    const log = withTwo();
    started(log, 'pip', 'run-1+fiv-test');
    drawn(log, 'una', 'run-2');
    read(log, 'una', 'run-2');
    expect(shared(log)).toEqual([]);
  });
});
