import { expect, it } from 'vitest';
import { day, span } from '../../../test/support/protocol.js';
import { said } from '../said.js';
import { heldLongFrom, isHeldLong } from './held-long.js';

const week = { heldLong: span({ days: 7 }) } as never;
const held = { status: 'on-hold' as const, due: day('2026-03-01'), hold: null };

it('on hold for long is from the day after the span that follows the due day (Verifies: PROT-R60)', () => {
  expect(heldLongFrom(held, week)).toBe('2026-03-09');
  expect([day('2026-03-08'), day('2026-03-09')].map((on) => isHeldLong(held, week, on))).toEqual([false, true]);
});

it('is counted from the day on which the reason came up, where that is later', () => {
  const hold = { code: 'ill', until: null, why: said('due.hold.age-unknown'), from: day('2026-03-04') };
  expect(heldLongFrom({ ...held, hold }, week)).toBe('2026-03-12');
  expect(heldLongFrom({ ...held, hold: { ...hold, from: day('2026-02-04') } }, week)).toBe('2026-03-09');
});

it.each([
  ['not on hold', { ...held, status: 'due' as const }, week],
  ['without a due day', { ...held, due: null }, week],
  ['where the protocol says nothing', held, { heldLong: null } as never],
  ['without a protocol', held, null],
])('%s: never', (_, item, protocol) => {
  expect(heldLongFrom(item, protocol)).toBeNull();
  expect(isHeldLong(item, protocol, day('2030-01-01'))).toBe(false);
});
