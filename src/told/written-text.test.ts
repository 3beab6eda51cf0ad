import { expect, it } from 'vitest';
import type { PlacedOrder } from '../core/animal/vet-order.js';
import { setZone } from '../words/say.js';
import { writtenText } from './written-text.js';

const protocol = { countersign: { hours: 24 } } as never;
const told = { readBack: true, at: '2026-03-02T12:00:00Z', zone: 'UTC' };
const order = (more: object = {}) =>
  ({ written: { by: 'vera', writer: 'sol', told, answered: null, ...more } }) as Pick<PlacedOrder, 'written'>;

it('what stands by an order told by telephone says until when it counts, on every page and paper (Verifies: LOG-R220)', () => {
  setZone('UTC');
  expect(writtenText(order(), protocol)).toMatch(/not yet countersigned: counts until 3 March 2026, 12:00/);
});

it.each([
  ['countersigned', order({ answered: { at: '2026-03-02T14:00:00Z', says: 'mine' } }), protocol],
  ['under a protocol that sets no time', order(), { countersign: null } as never],
  ['of a veterinarian’s own hand', {}, protocol],
])('one %s has no such end', (_, one, by) => {
  expect(writtenText(one, by)).not.toContain('counts until');
});
