/** A seeded source of numbers: the same seed gives the same shelter, byte for byte. Not for anything secret. */
export interface Chance {
  /** A number from 0 to below 1. */
  readonly next: () => number;
  /** A whole number, both ends included. */
  readonly whole: (from: number, to: number) => number;
  /** A number between two, the upper one excluded. */
  readonly between: (from: number, to: number) => number;
  /** True so many times out of a hundred. */
  readonly percent: (n: number) => boolean;
  readonly pick: <T>(from: readonly [T, ...T[]]) => T;
  /** So many hexadecimal digits. */
  readonly hex: (digits: number) => string;
}

/** The small fast counter generator of 32-bit words (four words of state), run in from the seed. */
export function chanceFrom(seed: number): Chance {
  let [a, b, c, counter] = [seed | 0, 0x9e3779b9 | 0, 0x243f6a88 | 0, 1];
  const word = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let round = 0; round < 16; round += 1) word();
  const next = (): number => word() / 4_294_967_296;
  const whole = (from: number, to: number): number => from + Math.floor(next() * (to - from + 1));
  return {
    next,
    whole,
    between: (from, to) => from + next() * (to - from),
    percent: (n) => next() * 100 < n,
    pick: (from) => from[whole(0, from.length - 1)] ?? from[0],
    hex: (digits) => Array.from({ length: digits }, () => whole(0, 15).toString(16)).join(''),
  };
}
