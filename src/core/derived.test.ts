import { describe, expect, it } from 'vitest';
import { derived, derivedInParts, eachOf, growing, grown, listOf, partBy } from './derived.js';
import { atOnce } from './in-parts.js';

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

  it('is remembered for what is frozen, too', () => {
    let asked = 0;
    const first = derived((list: readonly number[]) => {
      asked += 1;
      return list[0];
    });
    const [one, other] = [Object.freeze([1]), Object.freeze([2])];
    expect([first(one), first(other), first(one), first(other)]).toEqual([1, 2, 1, 2]);
    expect(asked).toBe(2);
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

describe('what is derived from a list that grows (Verifies: LOG-R165)', () => {
  interface One {
    readonly n: number;
  }
  const isEven = (one: One): one is One => one.n % 2 === 0;
  const numbers = (...all: readonly number[]): One[] => all.map((n) => ({ n }));

  it('keeps the part that a question is about while others come in, and grows with its own', () => {
    const evens = partBy(isEven);
    const list = numbers(1, 2, 4);
    const first = evens(list);
    const [odd, even] = numbers(3, 6) as [One, One];
    const more = grown(list, [odd], [list[0] as One, odd, ...list.slice(1)]);
    expect(evens(more)).toBe(first);
    const last = grown(more, [even], [...more, even]);
    expect(evens(last)).not.toBe(first);
    expect(evens(last).map(({ n }) => n)).toEqual([2, 4, 6]);
  });

  it('works out only what is new of each, in the order of the list', () => {
    let worked = 0;
    const doubled = eachOf((one: One, by: number) => {
      worked += 1;
      return { is: one.n * by };
    });
    const list = numbers(1, 2, 3);
    const first = doubled(list, 10);
    const [between] = numbers(9) as [One];
    const more = grown(list, [between], [list[0] as One, between, ...list.slice(1)]);
    expect(doubled(more, 10).map(({ is }) => is)).toEqual([10, 90, 20, 30]);
    expect(doubled(more, 10)[3]).toBe(first[2]);
    expect(worked).toBe(4);
    expect(doubled(more, 2).map(({ is }) => is)).toEqual([2, 18, 4, 6]);
  });

  it('is worked out whole where it cannot be taken on, and for a list that nobody said has grown', () => {
    const whole: number[] = [];
    const sum = growing(
      (list: readonly One[]) => {
        whole.push(list.length);
        return { is: list.reduce((all, { n }) => all + n, 0) };
      },
      (before: { readonly is: number }, { more }) =>
        more.some(({ n }) => n < 0) ? undefined : { is: before.is + more.reduce((all, { n }) => all + n, 0) },
    );
    const list = numbers(1, 2);
    expect(sum(list).is).toBe(3);
    const [more, less] = [numbers(3), numbers(-1)];
    const up = grown(list, more, [...list, ...more]);
    expect(sum(up).is).toBe(6);
    expect(sum(grown(up, less, [...up, ...less])).is).toBe(5);
    expect(sum([...list, ...more]).is).toBe(6);
    expect(whole).toEqual([2, 4, 3]);
  });
});

describe('what is derived in parts', () => {
  const counted = () => {
    let worked = 0;
    const sum = derivedInParts(function* (list: readonly number[], factor: number) {
      worked += 1;
      let all = 0;
      for (const one of list) {
        yield;
        all += one * factor;
      }
      return { all };
    });
    return { sum, worked: () => worked };
  };

  it('is asked as any other, and worked out once', () => {
    const { sum, worked } = counted();
    const list = [1, 2, 3];
    const first = sum(list, 2);
    expect(first).toEqual({ all: 12 });
    expect(sum(list, 2)).toBe(first);
    expect(sum(list, 3)).toEqual({ all: 18 });
    expect(worked()).toBe(2);
  });

  it('rests after each part, and is remembered at the end for those who ask at once', () => {
    const { sum, worked } = counted();
    const list = [1, 2, 3];
    const parts = sum.inParts(list, 2);
    expect([parts.next(), parts.next(), parts.next()].map(({ done }) => done)).toEqual([false, false, false]);
    const end = parts.next();
    expect(end).toEqual({ done: true, value: { all: 12 } });
    expect(sum(list, 2)).toBe(end.value);
    expect(sum.inParts(list, 2).next()).toEqual({ done: true, value: end.value });
    expect(worked()).toBe(1);
  });

  it('keeps the answer of whoever asked during a rest', () => {
    const { sum } = counted();
    const list = [1, 2, 3];
    const parts = sum.inParts(list, 2);
    parts.next();
    const asked = sum(list, 2);
    expect(atOnce(parts)).toBe(asked);
    expect(sum(list, 2)).toBe(asked);
  });
});
