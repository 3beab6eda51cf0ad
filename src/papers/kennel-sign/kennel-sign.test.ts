import { expect, it } from 'vitest';
import { animalId, at, day } from '../../../test/support/log.js';
import { roundDay, roundLog, viewOf } from '../../../test/support/round-log.js';
import { kennelSign } from './kennel-sign.js';

function sign(more: (log: ReturnType<typeof roundLog>) => void = () => {}) {
  const log = roundLog({ 'kit-1': ['roundworm'] });
  more(log);
  const { world } = viewOf(log);
  const animal = world.animals.get(animalId('kit-1'));
  if (animal === undefined) throw new Error('no kitten');
  return kennelSign(world, animal, day(roundDay));
}

it('says to keep apart and whom to ask, who it is and where, and never what was found', () => {
  const plain = sign();
  expect(plain.rules).toHaveLength(4);
  expect(plain.asked).toBe(false);
  expect([plain.name === '', plain.place === '', plain.chip]).toEqual([false, false, null]);
  const reactive = sign((log) => {
    const run = { run: 'run-1', schedule: 'felv-test', round: null };
    const kit = { kitType: 'felv-antigen-a', lot: null, kitLot: 'K27', conjugateLot: 'K27', outOfColdAt: null };
    log.one(
      'sample-drawn',
      'animal:kit-1',
      { ...run, sample: 'whole-blood', volume_ul: 100, usable: true } as never,
      at(roundDay, '13:31'),
    );
    log.one('test-started', 'animal:kit-1', { ...run, ...kit } as never, at(roundDay, '13:32'));
    const seen = { control: 'seen', felv: 'seen' };
    log.one('test-read', 'animal:kit-1', { ...run, seen, result: 'reactive' } as never, at(roundDay, '13:42'));
  });
  expect(reactive.asked).toBe(true);
  const words = JSON.stringify(reactive);
  expect(words).not.toMatch(/FeLV|FIV|leuk|positive|reactive/i);
});

it('has the chip as it is read out, and that another number was read', () => {
  const code = '900000000000017';
  const other = '900000000000018';
  const scanned = (of: string, occasion: string) => ({
    ...{ target: 'animal', occasion, passes: 1, reader: '', round: null },
    found: { raw: of, code: of, class: 'iso' },
  });
  const two = sign((log) => {
    const chip = { code, packScan: null, round: null, site: 'between-shoulder-blades' };
    log.one('chip-implanted', 'animal:kit-1', chip as never, at(roundDay, '10:30'), undefined, { by: 'vera' });
    log.one('chip-scanned', 'animal:kit-1', scanned(other, 'after') as never, at(roundDay, '11:31'));
  });
  expect(two.chip).toBe('900\u00a0000\u00a0000\u00a0000\u00a0017');
  expect(two.distrust).toContain('018');
});
