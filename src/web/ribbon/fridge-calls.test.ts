import { describe, expect, it } from 'vitest';
import type { KitType } from '../../core/dosing/formulary.js';
import type { World } from '../../log/views/world.js';
import { callsFor } from './fridge-calls.js';

const kit = { id: 'kit-1', name: 'a kit', warmMinutes: 30, warmLimitMinutes: null } as unknown as KitType;
/** A world with one box of the kit and what left the cold from it. */
const worldWith = (outOfCold: readonly { at: string; count: number }[]): World =>
  ({
    shelter: {
      lots: new Map([['lot-1', { id: 'lot-1', of: { is: 'kit', kitType: 'kit-1' }, outOfCold }]]),
      formulary: { kits: [kit] },
    },
    animals: new Map(),
  }) as unknown as World;
const startsAt = '2026-05-14T19:00:00.000Z';
const call = (outOfCold: readonly { at: string; count: number }[]) =>
  callsFor(worldWith(outOfCold), [{ kit, tests: 4 }], startsAt, '2026-05-14T18:40:00.000Z')[0];

describe('the call to take tests out of the cold (Verifies: RIBBON-R15)', () => {
  it('comes so long before the start as the kit needs to be warm', () => {
    expect(call([])?.at_ms).toBe(Date.parse('2026-05-14T18:30:00.000Z'));
    expect(call([])?.missing).toBe(4);
  });

  it('is for those that are still in the cold, and over when all are out', () => {
    const three = { at: '2026-05-14T18:20:00.000Z', count: 3 };
    expect(call([three])?.missing).toBe(1);
    expect(call([three, { at: '2026-05-14T18:35:00.000Z', count: 2 }])?.missing).toBe(0);
  });

  it('does not count tests that another shift left out', () => {
    expect(call([{ at: '2026-05-14T02:00:00.000Z', count: 4 }])?.missing).toBe(4);
  });
});
