import { expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf, when } from '../../../test/support/round-log.js';
import { drawUpsFor, wantedOfRound } from './draw-ups.js';
import { prepareRound } from './prepare.js';

it('the cart holds what the sheet says is drawn, to the mark (Verifies: ROUND-R88)', () => {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'], 'kit-3': ['roundworm'] });
  for (const [kit, grams] of [
    ['kit-1', 573],
    ['kit-2', 611],
    ['kit-3', 687],
  ]) {
    log.one('animal-weighed', `animal:${kit}`, { grams, entered: `${grams} g` } as never, at(roundDay, '12:00'));
  }
  const { world } = viewOf(log);
  const drawn = drawUpsFor(world, wantedOfRound(world, roundId as never), when('14:00'));
  const wormer = drawn.filter(({ product }) => product.id === ('pyrantel-50' as never));
  const sheet_ul = wormer.reduce((sum, { dose }) => sum + (dose.drawn?.volume_ul ?? 0), 0);
  const exact_ul = wormer.reduce((sum, { dose }) => sum + (dose.exact_ul ?? 0), 0);
  const cart = prepareRound(world, ['nursery' as never], when('14:00')).cart;
  expect(wormer).toHaveLength(3);
  expect(sheet_ul).not.toBe(exact_ul);
  expect(cart.products.find(({ product }) => product.id === ('pyrantel-50' as never))?.volume_ul).toBe(sheet_ul);
});
