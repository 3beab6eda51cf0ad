/** Numbers that look like chance and are the same every time: for tie-breaks and for simulation. */
export interface Chance {
  /** From 0, below 1. */
  next(): number;
  /** A whole number from `lowest` to `highest`, both included. */
  whole(lowest: number, highest: number): number;
}

/** The 32-bit generator mulberry32; its constants stand in reference/planning.json with the instances made by it. */
export function chanceFrom(seed: number): Chance {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return { next, whole: (lowest, highest) => lowest + Math.floor(next() * (highest - lowest + 1)) };
}
