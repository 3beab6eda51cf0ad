import { describe, expect, it } from 'vitest';
import { animalId, at, day } from '../../../../test/support/log.js';
import { ward } from '../../../../test/support/ward.js';
import { flagsIn } from '../../flags/flags.js';
import { openThings } from '../../flags/open-things.js';
import { worthOf } from '../due/due.js';
import { buildWorld, dueIn } from '../world.js';

interface Told {
  readonly readAt?: string;
  readonly conjugateLot?: string;
  readonly untimed?: boolean;
}

/** Everything that is said of a negative test of Pip that does not count. */
function saidOf({ readAt = '10:08:30', conjugateLot = 'KIT-A', untimed = false }: Told): string[] {
  const log = ward();
  log.take('pip', '2026-01-20');
  const run = { run: 'run-1', schedule: 'felv-test' };
  const begun = { ...run, kitType: 'felv-antigen-a', lot: 'kit-a', kitLot: 'KIT-A', conjugateLot, outOfColdAt: null };
  const seen = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' } as const;
  const drawn = { ...run, volume_ul: 120, usable: true, sample: 'whole-blood' };
  log.one('sample-drawn', 'animal:pip', drawn as never, at('2026-03-10', '09:58'));
  log.one('test-started', 'animal:pip', { ...begun, untimed } as never, at('2026-03-10', '10:00'));
  log.one('test-read', 'animal:pip', { run: 'run-1' as never, seen, untimed }, `2026-03-10T${readAt}.000Z`);
  const world = buildWorld(log.records);
  const today = day('2026-03-10');
  const pip = world.animals.get(animalId('pip'));
  if (pip === undefined) throw new Error('nobody was taken in');
  const due = dueIn(world, pip, today).find(({ schedule }) => schedule === 'felv-test');
  const worth = worthOf(pip, world.ground, today).find(({ schedule }) => schedule === 'felv-test');
  const open = openThings(world, pip, today).find(({ is }) => is === 'test');
  const flag = flagsIn(world, today).find(({ code }) => code === 'test-not-valid');
  const all = [due?.because, worth?.why, open?.why, ...(untimed ? [] : [flag?.why])];
  return all.map((one) => JSON.stringify(one ?? null));
}

describe('a reading that does not count says why (Verifies: TEST-R60)', () => {
  it.each([
    ['read late', { readAt: '10:20:00' }, 'due.reason.test-read-late'],
    ['read early', { readAt: '10:03:00' }, 'due.reason.test-read-early'],
    ['lots that do not belong together', { conjugateLot: 'KIT-B' }, 'due.reason.test-lots-differ'],
    ['no times', { untimed: true }, 'due.reason.test-no-times'],
  ])('%s', (_, told, reason) => {
    for (const sentence of saidOf(told)) expect(sentence).toContain(reason);
  });
});
