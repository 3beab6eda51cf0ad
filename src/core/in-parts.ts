/**
 * Work that can be laid aside between its parts: each step does a little, the last one gives the answer. A page does it
 * in slices and answers a hand in between; everybody else runs it to its end. Parts of a fold, of at most a few
 * milliseconds each.
 */
export type InParts<R> = Generator<undefined, R, undefined>;

/** Such work run to its end. */
export function atOnce<R>(work: InParts<R>): R {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/** What gives an answer at once, or the same one in parts. */
export interface AskedInParts<I extends readonly unknown[], R> {
  (...inputs: I): R;
  readonly inParts: (...inputs: I) => InParts<R>;
}

/** Asked as any other function, work with rests runs to its end. */
export const withRests = <I extends readonly unknown[], R>(work: (...inputs: I) => InParts<R>): AskedInParts<I, R> =>
  Object.assign((...inputs: I): R => atOnce(work(...inputs)), { inParts: work });
