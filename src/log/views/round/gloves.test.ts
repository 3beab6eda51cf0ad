import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { at, kitten } from '../../../../test/support/log.js';
import { drawn, roundDay, roundId, roundLog, started, viewOf, when } from '../../../../test/support/round-log.js';
import { cartFor } from '../../../core/round/cart.js';
import { changeGloves } from '../../commands/round.js';
import { draft } from '../../record.js';
import { gloveChanges, glovesBefore } from './gloves.js';
import { groupOf } from './group.js';

/** Kittens 1 to 4: two of one litter, two of none. */
const litterOf = [null, 'herbs', 'herbs', null, null] as const;

function ward(worn = ['wear.gloves']) {
  const log = roundLog({}, 0);
  const plan = { on: roundDay, sections: ['nursery'], treater: 'ines', holder: 'sol' };
  for (const kit of [1, 2, 3, 4]) {
    const litter = litterOf[kit] === null ? null : { id: litterOf[kit], name: 'Herbs' };
    const body = { ...kitten(`Kit ${kit}`, '2026-01-20', { section: 'nursery' as never }), litter };
    log.add([draft('animal-taken-in', `animal:kit-${kit}`, body as never, at('2026-03-01', '10:00'))], 'sol');
  }
  const lines = [1, 2, 3, 4].map((kit) => ({ animal: `kit-${kit}`, schedules: ['felv-test'] }));
  log.add([draft('round-planned', `round:${roundId}`, { ...plan, lines } as never, at(roundDay, '13:01'))], 'sol');
  log.add([draft('round-begun', `round:${roundId}`, {}, at(roundDay, '13:30'))]);
  log.one('section-entered', `round:${roundId}`, { section: 'nursery', worn } as never, when('13:30'));
  const wanted = (kit: number) => {
    const { world, view, stop } = viewOf(log);
    const [nursery] = view.stops;
    if (nursery === undefined) throw new Error('no nursery');
    return glovesBefore(world, view, nursery, stop(`kit-${kit}`).animal);
  };
  const touch = (kit: number, time = '13:31') =>
    log.one(
      'animal-identified',
      `animal:kit-${kit}`,
      { round: roundId, by: 'marks', compared: [] } as never,
      when(time),
    );
  const change = (kit: number, time = '13:32') => {
    const found = wanted(kit);
    if (found === null) throw new Error(`no gloves wanted before kit ${kit}`);
    const body = { visit: found.visit, why: found.why, before: `kit-${kit}` as never, after: [...found.after] };
    log.add(changeGloves(roundId as never, body, when(time)));
  };
  const count = () => gloveChanges(viewOf(log).view.facts);
  return { log, wanted, touch, change, count };
}

describe('fresh gloves between animals (Verifies: ROUND-R23)', () => {
  it('are asked for by the door before the first one, and not within a litter', () => {
    const { wanted, touch } = ward();
    expect(wanted(1)).toBeNull();
    touch(1);
    expect(wanted(1)).toBeNull();
    expect(wanted(2)).toBeNull();
  });

  it('are asked for before the first one where the door does not ask for gloves', () => {
    const { wanted, change, touch } = ward([]);
    expect(wanted(1)).toMatchObject({ why: 'first', from: null });
    change(1);
    expect(wanted(1)).toBeNull();
    touch(1);
    expect(wanted(2)).toBeNull();
  });

  it('are wanted before another litter, and again on the way back', () => {
    const { wanted, touch, change, count } = ward();
    touch(1);
    expect(wanted(3)).toMatchObject({ why: 'litter', from: { name: 'Kit 1' } });
    change(3);
    // Nothing has been touched with them: they are as good for anyone.
    expect([wanted(3), wanted(4), wanted(1)]).toEqual([null, null, null]);
    touch(3);
    expect(wanted(1)).toMatchObject({ why: 'litter', from: { name: 'Kit 3' } });
    expect(wanted(3)).toBeNull();
    expect(count()).toBe(1);
  });

  it.each([
    ['reactive', { control: 'seen', antigen: 'seen', invalid: 'not-seen' }],
    ['faint', { control: 'seen', antigen: 'faint', invalid: 'not-seen' }],
  ])('are wanted after a %s reading, before a litter mate too, and once', (_, seen) => {
    const { log, wanted, touch, change } = ward();
    touch(1);
    drawn(log, 1, '13:35');
    started(log, 1, '13:36');
    touch(2, '13:40');
    expect(wanted(2)).toBeNull();
    log.one('test-read', 'animal:kit-1', { run: 'run-1', seen, round: roundId } as never, when('13:44'));
    expect(wanted(1)).toBeNull();
    expect(wanted(2)).toMatchObject({ why: 'reactive', from: { name: 'Kit 1' } });
    change(2, '13:45');
    expect(wanted(2)).toBeNull();
  });

  it.each(['glow', 'unsure', 'no-glow'] as const)('after the lamp: %s', (answer) => {
    const { log, wanted, touch } = ward();
    touch(1);
    const body = { code: 'ringworm-lamp', state: 'present', answer, on: '2026-03-10', round: roundId };
    log.one('observation-noted', 'animal:kit-1', body as never, when('13:44'));
    expect(wanted(2)?.why ?? null).toBe(answer === 'no-glow' ? null : 'lamp');
  });

  it('are not wanted after a reading that is negative', () => {
    const { log, wanted, touch } = ward();
    touch(1);
    drawn(log, 1, '13:35');
    started(log, 1, '13:36');
    const seen = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };
    log.one('test-read', 'animal:kit-1', { run: 'run-1', seen, round: roundId } as never, when('13:44'));
    expect(wanted(2)).toBeNull();
  });

  it('do not hang on a clock: hands by a phone that is 43 minutes fast are met by a change before their time', () => {
    const { wanted, touch, change } = ward();
    touch(1, '14:14');
    change(3, '13:32');
    expect(wanted(3)).toBeNull();
    touch(3, '13:33');
    expect(wanted(1)).not.toBeNull();
  });

  it('that two phones note before they hear of each other are one change', () => {
    const { log, touch, wanted, count } = ward();
    touch(1);
    const seen = wanted(3);
    if (seen === null) throw new Error('no gloves wanted');
    const body = { visit: seen.visit, why: seen.why, before: 'kit-3' as never, after: [...seen.after] };
    log.add(changeGloves(roundId as never, body, when('13:32')));
    log.add(changeGloves(roundId as never, body, when('13:33')), 'sol');
    expect(wanted(3)).toBeNull();
    expect(count()).toBe(1);
  });

  it('come to the cart’s count when litters are done one after the other, in any order of litters', () => {
    fc.assert(
      fc.property(fc.constantFrom([1, 2, 3, 4], [3, 1, 2, 4], [4, 3, 2, 1]), (order) => {
        const { wanted, touch, change, count } = ward();
        for (const kit of order) {
          if (wanted(kit) !== null) change(kit);
          touch(kit);
        }
        const groups = new Set(
          order.map((kit) =>
            groupOf({ id: `kit-${kit}`, litter: litterOf[kit] == null ? null : { id: litterOf[kit] } }),
          ),
        ).size;
        const section = { id: 'n', name: 'N', wear: [], leave: [], contactMinutes: 0, groups };
        const { glovePairs } = cartFor([], [section], { products: [], syringes: [], kits: [] }, 2);
        // The first pairs are put on at the door.
        expect((count() + 1) * 2).toBe(glovePairs);
      }),
    );
  });
});
