import { noHash } from '../../../log/hash.js';

/** A record that has proved itself: its own hash comes out of the hash before it and of what it says. */
export interface Proven {
  readonly seq: number;
  readonly hash: string;
  readonly before: string;
}

/** Which of the records that were found make up one log, and which of its places nothing was found for. */
export interface SortedOut<P> {
  /** In order of place. */
  readonly records: readonly P[];
  /** In order. */
  readonly missing: readonly number[];
}

/**
 * Sort out what was found, from the end of the log backwards: each record names the hash of the one before it, so that an
 * older writing of the same place, or one that was never kept, is told from the one that was. A lost record takes none
 * along: the one before it is taken by its place. `places` is how far the log is known to have come, `head` where it ended.
 */
export function sortOut<P extends Proven>(
  found: Iterable<P>,
  places: number,
  head: Pick<Proven, 'seq' | 'hash'> | null,
): SortedOut<P> {
  const byPlace = new Map<number, P[]>();
  let last = places;
  for (const one of found) {
    if (one.seq === 1 ? one.before !== noHash : one.seq < 1) continue;
    const there = byPlace.get(one.seq) ?? [];
    if (there.some(({ hash }) => hash === one.hash)) continue;
    byPlace.set(one.seq, [...there, one]);
    last = Math.max(last, one.seq);
  }
  const records: P[] = [];
  const missing: number[] = [];
  let wanted: string | null = null;
  for (let seq = last; seq > 0; seq -= 1) {
    if (wanted === null && head?.seq === seq) wanted = head.hash;
    const there = byPlace.get(seq) ?? [];
    const one: P | undefined =
      wanted === null ? longestBefore(there, byPlace) : there.find(({ hash }) => hash === wanted);
    if (one === undefined) missing.push(seq);
    else records.push(one);
    wanted = one?.before ?? null;
  }
  return { records: records.reverse(), missing: missing.reverse() };
}

/** Of several in one place with nothing behind them to tell, the one that more records lead up to. */
function longestBefore<P extends Proven>(
  there: readonly P[],
  byPlace: ReadonlyMap<number, readonly P[]>,
): P | undefined {
  if (there.length < 2) return there[0];
  const lengths = there.map((one) => {
    let length = 0;
    for (let at: P | undefined = one; at !== undefined; length += 1) {
      const { seq, before }: P = at;
      at = byPlace.get(seq - 1)?.find(({ hash }) => hash === before);
    }
    return length;
  });
  return there[lengths.indexOf(Math.max(...lengths))];
}
