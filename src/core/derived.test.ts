import { describe, expect, it } from 'vitest';
import { derived, listOf } from './derived.js';

describe('what is derived', () => {
  const counted = () => {
    let worked = 0;
    const sum = derived((a: { n: number }, b: { n: number } | null, day: string) => {
      worked += 1;
      return { sum: a.n + (b?.n ?? 0), day };
    });
    return { sum, worked: () => worked };
  };

  it('is worked out once for the same inputs, and anew for any other', () => {
    const { sum, worked } = counted();
    const [a, b] = [{ n: 1 }, { n: 2 }];
    const first = sum(a, b, '2026-03-01');
    expect(sum(a, b, '2026-03-01')).toBe(first);
    expect(worked()).toBe(1);
    expect(sum(a, { n: 2 }, '2026-03-01')).toEqual(first);
    expect(sum(a, b, '2026-03-02').day).toBe('2026-03-02');
    expect(sum(a, null, '2026-03-01').sum).toBe(1);
    expect(worked()).toBe(4);
    expect(sum(a, b, '2026-03-01')).toBe(first);
  });

  it('forgets the day that was asked for longest ago', () => {
    const { sum, worked } = counted();
    const a = { n: 1 };
    for (const day of ['1', '2', '3', '4', '1', '5']) sum(a, null, day);
    expect(worked()).toBe(5);
    sum(a, null, '1');
    expect(worked()).toBe(5);
    sum(a, null, '2');
    expect(worked()).toBe(6);
  });

  it('remembers what is nothing, too', () => {
    let worked = 0;
    const none = derived((_: object) => {
      worked += 1;
      return undefined;
    });
    const input = {};
    none(input);
    none(input);
    expect(worked).toBe(1);
  });

  it('is one list for the same members in the same order', () => {
    const [a, b] = [{ n: 1 }, { n: 2 }];
    expect(listOf([a, b])).toBe(listOf([a, b]));
    expect(listOf([a, b])).not.toBe(listOf([b, a]));
    expect(listOf([])).toBe(listOf([]));
    expect(listOf([a, b])).toEqual([a, b]);
  });
});
