import { describe, expect, it } from 'vitest';
import { day } from '../../../test/support/log.js';
import { orderKey } from './in-order.js';
import { keepAskedFor, ordersAskedFor } from './orders-today.js';

function shelf(first: Record<string, string> = {}) {
  const kept = new Map(Object.entries(first));
  return () => ({
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
    size: () => kept.size,
  });
}
const orders = new Map([[orderKey(0, 'ward'), ['Dot', 'Cleo']]]);
const today = day('2026-05-14');

describe('an order that was asked for (Verifies: RIBBON-R13)', () => {
  it('is there again when the page is come back to, on that day only', () => {
    const own = shelf();
    keepAskedFor(today, orders, own);
    expect(ordersAskedFor(today, own)).toEqual(orders);
    expect(ordersAskedFor(day('2026-05-15'), own).size).toBe(0);
    keepAskedFor(today, new Map(), own);
    expect(own().size()).toBe(0);
  });

  it('is none where nothing can be read or kept', () => {
    const broken = shelf({ 'roundhand.orders-asked-for': '{"on":' });
    expect(ordersAskedFor(today, broken).size).toBe(0);
    const refuses = () => {
      throw new Error('no storage here');
    };
    expect(ordersAskedFor(today, refuses).size).toBe(0);
    expect(() => keepAskedFor(today, orders, refuses)).not.toThrow();
  });
});
