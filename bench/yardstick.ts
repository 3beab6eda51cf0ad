/**
 * What a benchmark holds its times against: a fixed loop of what the program does all day (small objects, texts, maps,
 * sorting, JSON), timed in the same run. A slower machine, or one that is busy, is slower at both. Nothing else here, so that
 * a page can time it too.
 */
const rounds = 36;
const rows = 200;
/** What the loop comes to. Another sum is another loop, and the goals mean nothing. */
const sum = 1_396_389;

export function yardstickLoop(): void {
  let state = 20_260_312;
  const roll = (below: number): number => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return Math.floor((state / 4_294_967_296) * below);
  };
  let seen = 0;
  for (let round = 0; round < rounds; round += 1) {
    const made = Array.from({ length: rows }, (_, at) => ({
      key: `row-${roll(50)}`,
      at: roll(100_000),
      text: `n${at}`,
    }));
    const groups = new Map<string, typeof made>();
    for (const row of made) groups.set(row.key, [...(groups.get(row.key) ?? []), row]);
    const sorted = [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, all]) => all.sort((a, b) => a.at - b.at));
    const again = JSON.parse(JSON.stringify(sorted)) as typeof sorted;
    for (const group of again)
      seen += group.length * (group[0]?.at ?? 0) + (group.at(-1)?.text.replace('n', '').length ?? 0);
  }
  if (seen % 1_500_007 !== sum) throw new Error(`the yardstick came to ${seen % 1_500_007}, not ${sum}`);
}

export interface Yardstick {
  /** Times the loop some more; to be called between the parts that are measured, so that both meet the same machine. */
  readonly again: () => void;
  /** Milliseconds of one loop, median of all so far. */
  readonly ms: () => number;
  readonly told: () => string;
}

/** By a clock of milliseconds: the clock that what is measured is measured by. */
export function yardstickBy(now: () => number): Yardstick {
  const times: number[] = [];
  // The compiler has its turn first.
  for (let turn = 0; turn < 20; turn += 1) yardstickLoop();
  const again = (): void => {
    for (let turn = 0; turn < 7; turn += 1) {
      const start = now();
      yardstickLoop();
      times.push(now() - start);
    }
  };
  const ms = (): number => [...times].sort((a, b) => a - b)[times.length >> 1] ?? 0;
  again();
  return {
    again,
    ms,
    told: () => `The yardstick of this run, a fixed loop, took ${ms().toFixed(2)} ms (median of ${times.length}).`,
  };
}
